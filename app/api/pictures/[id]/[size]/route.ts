import { readPicture } from '#lib/service/attachment.ts'
import { defineRoute } from '#lib/web/define-route.ts'
import { pictureResponse } from '#lib/web/picture-response.ts'

/** A picture, for whoever may see the case. */
export const GET = defineRoute({
  handler: ({ actor, params, request }) =>
    pictureResponse(request, params, (id, size) => readPicture(actor, id, size)),
})

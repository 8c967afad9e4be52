import { readPictureByLink } from '#lib/service/attachment.ts'
import { definePublicRoute } from '#lib/web/define-route.ts'
import { pictureResponse } from '#lib/web/picture-response.ts'

/** A picture, for whoever has the link of an ask about its animal. */
export const GET = definePublicRoute({
  handler: ({ params, request, now }) =>
    pictureResponse(request, params, (id, size) => readPictureByLink(params['token'] ?? '', id, size, now)),
})

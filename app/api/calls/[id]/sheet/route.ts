import { saveSheet } from '#lib/service/call.ts'
import { sheetPosted } from '#lib/web/call-form.ts'
import { defineRoute } from '#lib/web/define-route.ts'

/** Keeps the sheet while somebody types; the page behind reads it again. */
export const POST = defineRoute({
  handler: async ({ actor, params, now, request }) => {
    const { callId, base, input } = sheetPosted(await request.formData(), params['id'])
    const { version } = await saveSheet(actor, callId, base, input, now)
    return { json: { kept: true, version } }
  },
})

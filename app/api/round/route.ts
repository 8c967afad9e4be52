import { enterOnRound } from '#lib/service/round-entry.ts'
import { defineRoute } from '#lib/web/define-route.ts'
import { readForm } from '#lib/web/form.ts'
import { refresh } from '#lib/web/refresh.ts'
import { doneWords } from '#lib/words/round-entry.ts'

/** One tap of the round as a phone's queue sends it, as often as it takes to hear the answer. */
export const POST = defineRoute({
  handler: async ({ actor, now, request }) => {
    const { entry, isRepeat } = await enterOnRound(actor, readForm(await request.formData()), now)
    refresh('casualty')
    return { json: { id: entry.id, state: entry.state, isRepeat, say: doneWords(entry) } }
  },
})

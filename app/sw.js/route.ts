import { definePublicRoute } from '#lib/web/define-route.ts'
import { serviceWorker } from '#lib/web/service-worker.ts'
import { OFFLINE } from '#lib/words/offline.ts'

const text = serviceWorker({ title: OFFLINE.title, sentence: OFFLINE.nothingKept, next: OFFLINE.next })

/** The program that a browser keeps for when there is no signal. */
export const GET = definePublicRoute({
  handler: async () =>
    new Response(text, {
      headers: { 'content-type': 'text/javascript; charset=utf-8', 'cache-control': 'no-cache' },
    }),
})

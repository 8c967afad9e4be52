import { z } from 'zod'
import { defineRoute } from '#lib/web/define-route.ts'
import { eventStream } from '#lib/web/live.ts'

const NOUNS_MAX = 120

/** What changes, for as long as the page is open: nouns and numbers only, within what the person may see. */
export const GET = defineRoute({
  query: z.object({ about: z.string().max(NOUNS_MAX).default('') }),
  handler: ({ query, request }) => eventStream(query.about.split(',').filter(Boolean), request.signal),
})

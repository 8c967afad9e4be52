import { exportWeeks, weeksCsvQuery } from '#lib/service/weeks-csv.ts'
import { defineRoute } from '#lib/web/define-route.ts'

/** The tables of Weeks ahead for a spreadsheet. */
export const GET = defineRoute({
  query: weeksCsvQuery,
  handler: ({ actor, query, now }) => exportWeeks(actor, query, now),
})

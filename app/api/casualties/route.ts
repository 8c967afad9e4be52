import { whoIsWhereFilter } from '#lib/domain/who-is-where.ts'
import { exportWhoIsWhere } from '#lib/service/who-is-where.ts'
import { defineRoute } from '#lib/web/define-route.ts'

/** Who is where as a table for a spreadsheet, filtered as the page. */
export const GET = defineRoute({
  query: whoIsWhereFilter,
  handler: ({ actor, query, now }) => exportWhoIsWhere(actor, query, now),
})

import { exportPlaces } from '#lib/service/setup/place.ts'
import { defineRoute } from '#lib/web/define-route.ts'

/** The gazetteer as a table for a spreadsheet; what it gives can be taken in again. */
export const GET = defineRoute({ handler: ({ actor }) => exportPlaces(actor) })

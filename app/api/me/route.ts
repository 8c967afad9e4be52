import { defineRoute } from '#lib/web/define-route.ts'

/** Whether this browser's session still holds: an open page asks. */
export const GET = defineRoute({ handler: async ({ actor }) => ({ json: { name: actor.name } }) })

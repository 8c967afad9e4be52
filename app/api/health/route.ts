import { getFront } from '#lib/service/front.ts'
import { definePublicRoute } from '#lib/web/define-route.ts'

/** Whether the server answers and reaches its records. */
export const GET = definePublicRoute({
  handler: async () => {
    const { centres } = await getFront()
    return { json: { centres } }
  },
})

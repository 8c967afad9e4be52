import type { getPlan } from '#lib/service/setup/plan.ts'

/** A plan as setup reads it. */
export type PlanDetail = Awaited<ReturnType<typeof getPlan>>

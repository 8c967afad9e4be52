/**
 * Random small networks and calls for properties of placement: up to three centres, up to four stages, housing that
 * may be missing, pools loaded at random, some doors shut and some sites stopped.
 */
import fc from 'fast-check'
import { CARE_STAGES, type HousingType } from '#lib/domain/housing.ts'
import { forecast } from '#lib/forecast/forecast.ts'
import type { Outlook, PlacementQuestion, PlanStage } from '#lib/plan/model.ts'
import { outlookOf } from '#lib/plan/outlook.ts'
import {
  CENTRE_IDS,
  centre,
  estimate,
  forecastInput,
  need,
  pool,
  question,
  resident,
  TODAY,
} from './placement.ts'

const HOUSING: readonly HousingType[] = ['hospital-cage', 'sheltered-aviary', 'flight-aviary']
const DAYS = 40

const plans = fc.array(
  fc.record({
    housing: fc.constantFrom(...HOUSING),
    medianDays: fc.integer({ min: 1, max: 25 }),
    onward: fc.double({ min: 0.2, max: 1, noNaN: true }),
  }),
  { minLength: 1, maxLength: 4 },
)

const sites = fc.record({
  km: fc.integer({ min: 0, max: 90 }),
  free: fc.integer({ min: 0, max: 3 }),
  capacities: fc.tuple(...HOUSING.map(() => fc.option(fc.integer({ min: 0, max: 3 }), { freq: 4 }))),
  loads: fc.tuple(...HOUSING.map(() => fc.integer({ min: 0, max: 4 }))),
  isShut: fc.boolean(),
  isStopped: fc.boolean(),
})

export type Site = {
  readonly km: number
  readonly free: number
  readonly capacities: readonly (number | null)[]
  readonly loads: readonly number[]
  readonly isShut: boolean
  readonly isStopped: boolean
}

export type PlacementCase = {
  readonly plan: readonly {
    readonly housing: HousingType
    readonly medianDays: number
    readonly onward: number
  }[]
  readonly sites: readonly Site[]
  readonly count: number
}

export const placementCases: fc.Arbitrary<PlacementCase> = fc.record({
  plan: plans,
  sites: fc.array(sites, { minLength: 1, maxLength: 3 }),
  count: fc.integer({ min: 1, max: 3 }),
})

/** The question and the forecast of a random case. */
export function placementOf(drawn: PlacementCase): { asked: PlacementQuestion; outlook: Outlook } {
  const pools = drawn.sites.flatMap((site, at) =>
    HOUSING.flatMap((housing, kind) => {
      const capacity = site.capacities[kind] ?? null
      return capacity === null ? [] : [pool(CENTRE_IDS[at]!, housing, capacity, DAYS)]
    }),
  )
  const residents = drawn.sites.flatMap((site, at) =>
    HOUSING.flatMap((housing, kind) => {
      const home = pools.find(each => each.id === `${CENTRE_IDS[at]}/${housing}`)
      return home === undefined
        ? []
        : Array.from({ length: site.loads[kind]! }, (_, i) =>
            resident(`${home.id}-${i}`, housing, home.id, 6 + 9 * i),
          )
    }),
  )
  const stages: PlanStage[] = drawn.plan.map(({ housing, medianDays, onward }, at) => {
    const stage = CARE_STAGES[at]!
    return { stage, estimate: estimate(stage, medianDays, onward), needs: [need(housing)] }
  })
  const centres = drawn.sites.map((site, at) => ({
    ...centre(CENTRE_IDS[at]!, site.km, stages, pools),
    freeTonight: Array.from({ length: site.free }, (_, i) => ({
      enclosureId: `${at}-${i}`,
      placeNo: 1,
      name: `cage ${i}`,
    })),
    door: site.isShut ? ({ kind: 'shut', opensAt: null } as const) : ({ kind: 'open' } as const),
    site: site.isStopped
      ? ({ kind: 'no movement', since: TODAY - 2, covers: 'birds', coversThese: true } as const)
      : ({ kind: 'open' } as const),
  }))
  const asked = question()
  return {
    asked: { ...asked, animals: { ...asked.animals, count: drawn.count, stages }, centres },
    outlook: outlookOf(forecast(forecastInput(pools, residents, DAYS))),
  }
}

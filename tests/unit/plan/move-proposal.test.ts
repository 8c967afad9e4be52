import { describe, expect, it } from 'vitest'
import { forecast } from '#lib/forecast/forecast.ts'
import { MID_STAGE_MARGIN, proposeMove } from '#lib/plan/move-proposal.ts'
import { outlookOf } from '#lib/plan/outlook.ts'
import { stayTable } from '#lib/plan/stay-table.ts'
import {
  forecastInput,
  openForecast,
  POOLS,
  question,
  resident,
  stage,
  TODAY,
  withCentre,
} from '#tests/support/placement.ts'

const outlook = outlookOf(openForecast())
const FLIGHT = [stage('unlimited activity', 'flight-aviary', 14)]
/** Ready for a flight aviary at Ashdown Quay. */
const ready = question({
  animals: { ...question().animals, stages: FLIGHT },
  centres: question().centres.map(centre => ({ ...centre, homes: [centre.homes[1] ?? null] })),
})
const here = { centreId: 'ash', enteredOn: TODAY, isMidStage: false }
/** The flight aviary of Ashdown Quay is full for weeks; nobody can be put in it tonight. */
const full = withCentre(ready, 'ash', { freeTonight: [] })
const busy = outlookOf(
  forecast(forecastInput(POOLS, [resident('a', 'flight-aviary', 'ash/flight-aviary', 40)])),
)

describe('the placement rule for an animal in care', () => {
  it('stays where there is a place', () => {
    expect(proposeMove(ready, outlook, here)).toBeNull()
  })

  it('moves to the nearer of two centres with a place, with terms that add up to what is shown', () => {
    const proposal = proposeMove(full, busy, here)
    expect(proposal?.move.centre.id).toBe('birch')
    for (const way of [proposal!.stay, proposal!.move]) {
      const shown = way.terms.reduce((sum, term) => sum + Math.round(term.shown * 100), 0)
      expect(shown).toBe(Math.round(way.totalShown * 100))
    }
    // By hand: one transfer at 2 place-days and 30 km at 40 km a place-day; engine.md 5, the weights of the policy.
    expect(proposal!.move.terms.map(term => [term.kind, term.value])).toEqual(
      expect.arrayContaining([
        ['transfer', 2],
        ['later drive', 0.75],
      ]),
    )
    expect(proposal!.gain).toBeCloseTo(proposal!.stay.totalShown - proposal!.move.totalShown, 10)
    expect(proposal!.gain).toBeGreaterThan(0)
  })

  it('offers no move into a centre that is barred, nor out of one under a stop', () => {
    const stop = { kind: 'no movement', since: TODAY, covers: 'birds', coversThese: true } as const
    const barred = withCentre(full, 'birch', { site: stop })
    expect(proposeMove(barred, busy, here)?.move.centre.id).not.toBe('birch')
    expect(proposeMove(withCentre(full, 'ash', { site: stop }), busy, here)).toBeNull()
    expect(proposeMove(full, busy, { ...here, centreId: 'elsewhere' })).toBeNull()
  })

  it('wants more than the margin in the middle of a stage', () => {
    const cost = (km: number) => {
      const between = { ash: { birch: { km, minutes: km }, cedar: { km: 4000, minutes: 4000 } } }
      return proposeMove({ ...full, between: { ...full.between, ...between } }, busy, {
        ...here,
        isMidStage: true,
      })
    }
    const gainAt = (km: number) => cost(km)?.gain ?? 0
    const near = cost(0)!.gain
    // 40 km weigh a place-day: so far that less than the margin is left, and it stays.
    const kmToMargin = (near - MID_STAGE_MARGIN) * 40
    expect(gainAt(kmToMargin - 4)).toBeGreaterThan(MID_STAGE_MARGIN)
    expect(cost(kmToMargin + 1)).toBeNull()
  })

  it('does not carry an animal through the middle of isolation', () => {
    const inIsolation = [stage('quarantine', 'isolation', 10)]
    const isolated = { ...full, animals: { ...full.animals, stages: inIsolation } }
    expect(proposeMove(isolated, busy, { ...here, isMidStage: true })).toBeNull()
  })
})

describe('the stay of who is in its stage already', () => {
  it('has less of it before it than the stay of a newcomer', () => {
    const days = (enteredOn: number) => {
      const [first] = stayTable(ready, outlook, 'tonight', enteredOn).walk
      return first!.present.reduce((sum, p) => sum + p, 0) + first!.daysBeyond
    }
    expect(days(TODAY - 10)).toBeLessThan(days(TODAY))
    expect(days(TODAY + 5)).toBe(days(TODAY))
  })
})

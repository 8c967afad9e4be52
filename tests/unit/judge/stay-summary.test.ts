import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { judgedOrigin } from '#lib/domain/judged-forecast.ts'
import { brierOf } from '#lib/judge/brier.ts'
import type { PredictedStay } from '#lib/judge/single-stay.ts'
import { stayCalibration } from '#lib/judge/stay-calibration.ts'
import { daysToPredict, judgedStay, STAY_DAYS, staySummaryOf } from '#lib/judge/stay-summary.ts'

/** A stay whose chance to go on is multiplied by some number each day. */
const stay = fc
  .record({
    until: fc.integer({ min: -1, max: 200 }),
    isEnded: fc.boolean(),
    goesOn: fc.array(fc.double({ min: 0.5, max: 1, noNaN: true }), { minLength: 210, maxLength: 210 }),
  })
  .map(({ until, isEnded, goesOn }): PredictedStay => {
    let alive = 1
    const staying = goesOn.map(chance => {
      alive *= chance
      return alive
    })
    return { staying, until, isEnded: isEnded && until >= 0 }
  })

/** Through JSON and the schema, as a run keeps it. */
const kept = (stays: readonly PredictedStay[], origin = 20_000) =>
  judgedOrigin.parse(JSON.parse(JSON.stringify({ origin, horizons: [], stays: stays.map(judgedStay) })))

describe('single stays of a backtest', () => {
  it('have the scores of their whole predictions', () => {
    fc.assert(
      fc.property(fc.array(stay, { minLength: 1, maxLength: 30 }), stays => {
        const found = staySummaryOf([kept(stays.slice(0, 7)), kept(stays.slice(7), 20_014)])
        expect(found?.ended).toBe(stays.filter(({ isEnded }) => isEnded).length)
        expect(found?.calibration).toEqual(stayCalibration(stays))
        expect(found?.brier).toEqual(STAY_DAYS.map(day => brierOf(stays, day)))
      }),
      { numRuns: 100 },
    )
  })

  it('say nothing where none was judged', () => {
    expect(staySummaryOf([])).toBeNull()
    expect(staySummaryOf([{ origin: 20_000, horizons: [] }, kept([])])).toBeNull()
  })

  it('need predictions that reach their end and every day that is asked', () => {
    expect(daysToPredict({ until: 3 })).toBe(91)
    expect(daysToPredict({ until: 300 })).toBe(301)
    const short = { staying: new Float64Array(90).fill(1), until: 3, isEnded: true }
    expect(() => judgedStay(short)).toThrow(RangeError)
  })
})

import { expect, test } from 'vitest'
import { stayingOn, withinPrediction } from '#lib/judge/single-stay.ts'

const staying = [0.8, 0.5, 0.3]

test('who outlives the prediction is known to have done so, and no more', () => {
  const seen = { staying, until: 2, isEnded: true }
  expect(withinPrediction(seen)).toBe(seen)
  expect(withinPrediction({ staying, until: 3, isEnded: true })).toEqual({
    staying,
    until: 2,
    isEnded: false,
  })
  expect(withinPrediction({ staying, until: 9, isEnded: false })).toEqual({
    staying,
    until: 2,
    isEnded: false,
  })
})

test('everybody is there before the first day', () => {
  const stay = { staying, until: -1, isEnded: false }
  expect([-1, 0, 2].map(d => stayingOn(stay, d))).toEqual([1, 0.8, 0.3])
})

test('what is no day is refused', () => {
  for (const bad of [
    { staying: [], until: 0, isEnded: false },
    { staying, until: -1, isEnded: true },
    { staying, until: -2, isEnded: false },
    { staying, until: 0.5, isEnded: false },
  ])
    expect(() => withinPrediction(bad)).toThrow('stay needs days and an end')
})

import { expect, test } from 'vitest'
import { oneOn } from '#lib/forecast/presence.ts'
import { unitWalk } from '#lib/forecast/unit-walk.ts'
import { walkFrom } from '#lib/forecast/walk.ts'
import { newWork } from '#lib/numerics/work.ts'
import { estimate, length, OVERWINTERING, stage, TODAY } from '../../support/forecasting.ts'

const PATH = [
  stage('a'),
  { ...stage('b'), estimate: estimate({ ready: { kind: 'length', length: length(9, 30) } }) },
]

test('is the walk of one entry on day 0, on whatever day that is', () => {
  const walks = unitWalk(PATH, 80, newWork())
  expect(walks).toEqual(walkFrom(PATH, 0, oneOn(0, 80), TODAY, newWork()))
})

test('is walked once for the same estimates, wherever they are lived, and anew for other days or what follows', () => {
  unitWalk(PATH, 80, newWork())
  const again = newWork()
  const elsewhere = PATH.map(one => ({ ...one, poolId: 'elsewhere' }))
  expect(unitWalk(elsewhere, 80, again)).toEqual(unitWalk(PATH, 80, newWork()))
  expect(again.multiplyAdds).toBe(0)
  expect(unitWalk(PATH, 60, newWork())[1]!.present).toEqual(
    unitWalk(PATH, 80, newWork())[1]!.present.slice(0, 60),
  )
  const reversed = newWork()
  expect(unitWalk(PATH.toReversed(), 80, reversed)[1]!.present).not.toEqual(
    unitWalk(PATH, 80, newWork())[0]!.present,
  )
  expect(reversed.multiplyAdds).toBeGreaterThan(0)
})

test('refuses a stage that a date ends', () => {
  expect(() => unitWalk([{ ...stage('a'), estimate: OVERWINTERING }], 80, newWork())).toThrow('date gate')
})

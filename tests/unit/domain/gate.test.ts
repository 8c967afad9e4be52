import { expect, it } from 'vitest'
import { type GateCheck, gatesOf } from '#lib/domain/gate.ts'

const check = (change: Partial<GateCheck>): GateCheck => ({
  slug: 'weigh',
  what: 'holds',
  stageNo: 2,
  requiredFor: 'next stage',
  doneAt: null,
  passed: null,
  isCalledOff: false,
  ...change,
})
const on = (day: number) => new Date(Date.UTC(2026, 5, day))

it('stands once for a check that repeats, by its last result', () => {
  const checks = [
    check({ doneAt: on(1), passed: true }),
    check({ doneAt: on(4), passed: false }),
    check({ doneAt: on(2), passed: true }),
    check({}),
  ]
  expect(gatesOf(checks, 2)).toMatchObject([{ slug: 'weigh', state: 'not passed', doneAt: on(4) }])
})

it('leaves out what bars nothing, was called off, or belongs to a stage left behind, but never a bar of release', () => {
  const checks = [
    check({ requiredFor: null }),
    check({ isCalledOff: true, slug: 'radiograph' }),
    check({ stageNo: 1, slug: 'vet-exam' }),
    check({ stageNo: 1, slug: 'vet-word', requiredFor: 'release' }),
  ]
  expect(gatesOf(checks, 2).map(({ slug, state }) => [slug, state])).toEqual([['vet-word', 'open']])
})

import { expect, test } from 'vitest'
import { type ReproducedFacts, reproducedWords } from '#lib/words/reproduced.ts'

const CELL = { key: 'cat.any-bird.any.none|1', animals: 37, stretch: { mean: 1.4 }, lean: 0.2 }
const facts = (change: Partial<ReproducedFacts> = {}): ReproducedFacts => ({
  run: 7,
  versions: { kept: 'stages 1', again: 'stages 1' },
  areRecordsSame: true,
  otherKeys: [],
  isDigestSame: true,
  again: [CELL, { ...CELL, key: 'other' }],
  ...change,
})

test('a run that is the same is said to be, and no more', () => {
  expect(reproducedWords(facts())).toEqual(['Run 7, learned again, is the same to the last bit.'])
})

test('one stage is told with its numbers', () => {
  expect(reproducedWords(facts({ isDigestSame: null, again: [CELL] }))).toEqual([
    'cat.any-bird.any.none|1: 1.40 times the plan, from 37 animals; dates lean on the plan by 0.20.',
    'This stage of run 7, learned again, is the same to the last bit.',
  ])
})

test('what differs is named: the method, the records, the stages, else the arrivals', () => {
  expect(
    reproducedWords(
      facts({
        versions: { kept: 'stages 1', again: 'stages 2' },
        areRecordsSame: false,
        otherKeys: Array.from({ length: 12 }, (_, i) => `k${i}`),
        isDigestSame: false,
      }),
    ),
  ).toEqual([
    'Run 7, learned again, is not the same.',
    'It was learned by the method "stages 1"; this program has "stages 2".',
    'Other records went in: something that no entry keeps was changed since.',
    'Stages that differ: k0, k1, k2, k3, k4, k5, k6, k7, k8, k9, 2 more.',
  ])
  expect(reproducedWords(facts({ isDigestSame: false }))[1]).toContain('arrivals differ')
})

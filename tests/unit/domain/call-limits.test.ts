import { expect, test } from 'vitest'
import { callFacts } from '#lib/domain/call-facts.ts'
import * as limits from '#lib/domain/call-limits.ts'

test.each([
  ['animalTyped', limits.ANIMAL_TYPED_MAX],
  ['whereTyped', limits.WHERE_TYPED_MAX],
  ['wrongTyped', limits.WRONG_TYPED_MAX],
  ['sinceWhen', limits.TOLD_MAX],
  ['happenedSince', limits.HAPPENED_SINCE_MAX],
  ['notes', limits.NOTES_MAX],
  ['finderName', limits.FINDER_NAME_MAX],
  ['finderPhone', limits.FINDER_PHONE_MAX],
])('%s holds %i characters and not one more, as its form says', (field, max) => {
  expect(callFacts.safeParse({ [field]: 'x'.repeat(max) }).success).toBe(true)
  expect(callFacts.safeParse({ [field]: 'x'.repeat(max + 1) }).success).toBe(false)
})

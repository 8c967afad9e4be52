import { describe, expect, test } from 'vitest'
import { type CallFacts, callFacts, emptyCallFacts } from '#lib/domain/call-facts.ts'
import { callFormValues, readCallForm } from '#lib/domain/call-form.ts'
import { isFailure } from '#lib/kernel/failure.ts'
import { readForm } from '#lib/web/form.ts'

const ZONE = 'Europe/London'

function sent(values: Readonly<Record<string, readonly string[]>>) {
  const data = new FormData()
  for (const [name, all] of Object.entries(values)) for (const value of all) data.append(name, value)
  return readForm(data)
}

const full: CallFacts = callFacts.parse({
  dangers: ['road', 'water'],
  answers: { bitten: 'no', 'several-dead': 'unknown', danger: 'yes' },
  told: { 'since-when': 'yesterday' },
  species: 'kestrel',
  animalTyped: 'kes',
  age: 'adult',
  count: 2,
  isBrood: true,
  whereTyped: 'Fenmoor',
  where: null,
  conditions: [
    { slug: 'leg-fracture', severity: 'closed' },
    { slug: 'emaciation', severity: null },
  ],
  wrongTyped: 'leg dangling',
  urgency: 'today',
  sinceWhen: 'an hour ago',
  happenedSince: 'given water',
  finderName: 'A. Finder',
  finderPhone: '01632 960 555',
  isCaught: false,
  hasFinder: false,
  vetKeeps: { vetName: 'Dr Sallow', agreedAt: '2026-11-25T23:45:00.000Z', keptBy: 'practice' },
  outsideExamination: { at: '2026-11-25T20:00:00.000Z', by: 'Dr Sallow', words: 'in the yard' },
  authorityLeave: { at: '2026-11-25T21:00:00.000Z', words: 'may come in' },
  notes: 'rang twice',
})

describe('the form of a call', () => {
  test.each([emptyCallFacts(), full])('read back gives the facts it was written from', facts => {
    const { placeId, ...read } = readCallForm(sent(callFormValues(facts, ZONE)), ZONE)
    const { where, ...said } = facts
    expect(read).toEqual(said)
    expect(placeId).toBe(where?.placeId ?? null)
  })

  test('keeps the place that was chosen', () => {
    const where = { how: 'gazetteer', latitude: 54, longitude: -3, name: 'Fenmoor', placeId: 7 } as const
    expect(readCallForm(sent(callFormValues({ ...full, where }, ZONE)), ZONE).placeId).toBe(7)
  })

  test('may be sent with nothing in it', () => {
    const { placeId, ...read } = readCallForm({}, ZONE)
    const { where, ...empty } = emptyCallFacts()
    expect([read, placeId, where]).toEqual([empty, null, null])
  })

  test.each([
    [{ count: 'six' }, 'count'],
    [{ vetKeeps: { vetName: 'Dr Sallow' } }, 'vetKeeps.agreedAt'],
    [{ answers: { bitten: 'perhaps' } }, 'answers.bitten'],
  ])('says which field does not fit: %j', (form, field) => {
    let problems: readonly { field: string }[] = []
    try {
      readCallForm(form, ZONE)
    } catch (thrown) {
      if (!isFailure(thrown)) throw thrown
      problems = thrown.problems
    }
    expect(problems.map(problem => problem.field)).toEqual([field])
  })
})

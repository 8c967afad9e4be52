import { describe, expect, test } from 'vitest'
import { callFacts } from '#lib/domain/call-facts.ts'
import { leastDaysIn } from '#lib/domain/care-plan-check.ts'
import { stageEstimate } from '#lib/domain/estimate.ts'
import { animalsOf, judge, ON_THE_PHONE } from '#lib/plan/newcomers.ts'
import { referenceTrade } from '#tests/support/reference.ts'

const trade = referenceTrade()
const sheet = (change: object = {}) =>
  callFacts.parse({ species: 'blackbird', conditions: [{ slug: 'cat-attack' }], age: 'adult', ...change })

describe('a sheet on which a fact is missing', () => {
  test('has no animals yet', () => {
    expect(animalsOf(sheet({ species: null }), trade, 11)).toBeUndefined()
    expect(animalsOf(sheet({ species: 'not listed' }), trade, 11)).toBeUndefined()
    expect(animalsOf(sheet({ conditions: [] }), trade, 11)).toBeUndefined()
    expect(animalsOf(sheet(), trade, 11)).toBeDefined()
  })

  test('is judged all the same', () => {
    const { urgency } = judge(sheet({ species: null }), trade)
    expect(urgency).toEqual(animalsOf(sheet(), trade, 11)?.urgency)
  })
})

test('what an option waits for is what is stored with the casualty', () => {
  const conditions = [{ slug: 'coracoid-fracture' }]
  const { plan } = animalsOf(sheet({ conditions }), trade, 11)!
  const least = plan.stages.map(({ stage }) => leastDaysIn(plan.gates, stage))
  expect(Math.max(...least)).toBe(21) // reference, gates: operated by default, union looked for from day 21
  const stored = plan.stages.map(({ estimate }) => stageEstimate.parse(JSON.parse(JSON.stringify(estimate))))
  expect(stored.map(estimate => estimate.leastDays)).toEqual(least)
  expect(stored).toEqual(plan.stages.map(({ estimate }) => estimate))
})

describe('the animals of a complete sheet', () => {
  const animals = animalsOf(sheet(), trade, 11)!

  test('have the plan of what is wrong, and one need a stage', () => {
    expect(animals.choices.map(choice => choice.condition)).toEqual(['cat-attack'])
    expect(animals.plan.planIds.every(id => id.startsWith('cat-attack.'))).toBe(true)
    expect(animals.needs.map(need => need.stage)).toEqual(animals.plan.stages.map(stage => stage.stage))
    expect(animals.needs.length).toBeGreaterThan(1)
  })

  test('need what their group lives in, by their own size', () => {
    expect(animals.needs[0]?.housing[0]).toBe('intensive-care')
    expect(animals.needs.at(-1)?.housing[0]).toBe('sheltered-aviary')
    expect(new Set(animals.needs.map(need => need.flightLengthM))).toEqual(new Set([4.8]))
  })

  test('share outside the season in which adults fight, and not in it', () => {
    expect(new Set(animals.needs.map(need => need.companyKey))).toEqual(new Set(['thrushes']))
    const inMay = animalsOf(sheet(), trade, 5)!
    expect(new Set(inMay.needs.map(need => need.companyKey))).toEqual(new Set([`alone:${ON_THE_PHONE}`]))
  })

  test('are others once somebody names them', () => {
    const kestrel = animalsOf(sheet({ species: 'kestrel' }), trade, 11)!
    expect(kestrel.group.slug).toBe('falcons')
    expect(kestrel.needs[0]).toMatchObject({ sizeRank: 3, company: 'kestrels', preys: 'predator' })
  })
})

test('an urgency somebody chose stands over the one found', () => {
  const found = judge(sheet(), trade).urgency.urgency
  const chosen = found === 'advice' ? 'now' : 'advice'
  expect(judge(sheet({ urgency: chosen }), trade).urgency.urgency).toBe(chosen)
})

import { describe, expect, test } from 'vitest'
import { isScreened, notifiableState } from '#lib/domain/notifiable.ts'
import { speciesOf } from '#lib/domain/trade.ts'
import { referenceTrade } from '#tests/support/reference.ts'

const trade = referenceTrade()
const state = (slug: string | undefined, slugs: string[], answers = {}) =>
  notifiableState(
    slug === undefined ? undefined : speciesOf(trade, slug),
    trade.conditions.filter(one => slugs.includes(one.slug)),
    answers,
  )
const because = (slug: string | undefined, slugs: string[], answers = {}) => {
  const found = state(slug, slugs, answers)
  return found.state === 'suspected' ? found.because : found.state
}

// trade.md S14 and S16; the signs are those of the reference's condition "notifiable-suspect".
describe('suspicion of a notifiable disease', () => {
  test.each([
    ['mute-swan', ['wing-fracture'], { 'several-dead': 'yes' }, ['several sick or dead']],
    ['herring-gull', ['any-reason'], { nerves: 'yes' }, ['nerves']],
    ['kestrel', ['breathing'], {}, ['breathing']],
    ['robin', ['breathing'], {}, 'ask'],
    ['robin', ['breathing'], { 'several-dead': 'yes' }, ['several sick or dead']],
    ['robin', ['notifiable-suspect'], {}, ['said so']],
    ['robin', ['cat-attack'], { nerves: 'yes' }, 'not at risk'],
    ['hedgehog', ['emaciation'], { 'several-dead': 'yes', nerves: 'yes' }, 'not at risk'],
    [undefined, ['notifiable-suspect'], {}, ['said so']],
    [undefined, ['cat-attack'], { nerves: 'yes' }, 'not at risk'],
    [undefined, ['oiled'], { nerves: 'yes' }, ['nerves']],
  ] as const)('in a %s with %j and %j', (slug, slugs, answers, expected) => {
    expect(because(slug, [...slugs], answers)).toEqual(expected)
  })

  test('is not ruled out by an injury', () => {
    expect(because('mute-swan', ['road-traffic', 'wound'], { nerves: 'yes' })).toEqual(['nerves'])
  })

  test('is asked about until every question has an answer', () => {
    expect(state('mute-swan', ['wing-fracture'])).toEqual({
      state: 'ask',
      questions: ['several-dead', 'nerves'],
    })
    expect(state('mute-swan', ['wing-fracture'], { 'several-dead': 'no' })).toEqual({
      state: 'ask',
      questions: ['nerves'],
    })
    expect(state('mute-swan', ['wing-fracture'], { 'several-dead': 'no', nerves: 'unknown' })).toEqual({
      state: 'screened',
    })
  })

  test('concerns every bird of a group at risk, whatever is wrong', () => {
    expect(isScreened(speciesOf(trade, 'mallard'), [])).toBe(true)
    expect(isScreened(speciesOf(trade, 'robin'), [])).toBe(false)
    expect(isScreened(speciesOf(trade, 'hedgehog'), trade.conditions)).toBe(false)
  })
})

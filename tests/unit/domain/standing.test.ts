import { expect, it } from 'vitest'
import { callFacts } from '#lib/domain/call-facts.ts'
import { changesBetween, type Standing } from '#lib/domain/standing.ts'
import { changedWords } from '#lib/words/call.ts'
import { changeWords } from '#lib/words/standing.ts'

const before: Standing = {
  facts: callFacts.parse({ species: 'kestrel' }),
  places: { Averbrook: 3, Withenholt: 0 },
  offered: ['Averbrook', 'Withenholt'],
  order: ['a', 'w'],
}
const wordsOf = (now: Standing, writers = {}) =>
  changesBetween(before, now).map(change => changeWords(change, writers))

it('nothing named and the same order is no change, whatever is typed beside the facts', () => {
  expect(wordsOf({ ...before, facts: { ...before.facts, notes: 'rang twice' } })).toEqual([])
})

it('names what changed in the network and on the call, and who changed it', () => {
  const now: Standing = {
    facts: { ...before.facts, species: 'buzzard', count: 2 },
    places: { Averbrook: 2, Withenholt: 2, Lanternhay: 1 },
    offered: ['Averbrook', 'Lanternhay'],
    order: ['l', 'a'],
  }
  expect(wordsOf(now, { species: 'Joss' })).toEqual([
    "The animal's species was changed by Joss",
    'How many there are was changed',
    'Withenholt cannot take it any more',
    'Lanternhay can take it now',
    'Averbrook lost a place',
    'Withenholt gained 2 places',
  ])
  expect(changedWords(6)).toBe('6 facts changed, rank again')
})

it('an order that changed by nothing named is said as such', () => {
  expect(wordsOf({ ...before, order: ['w', 'a'] })).toEqual(['The chances in the weeks ahead changed'])
})

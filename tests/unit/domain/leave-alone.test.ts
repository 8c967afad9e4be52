import { describe, expect, test } from 'vitest'
import { type LeaveCase, leaveAlone } from '#lib/domain/leave-alone.ts'

const asked = { injury: 'no', cat: 'no', danger: 'no' } as const
const fledgling: LeaveCase = {
  conditions: ['displaced-fledgling'],
  answers: asked,
  age: 'young',
  group: 'thrushes-starlings',
  class: 'bird',
}

// trade.md 4.2: common practice.
describe('a young animal that looks alone', () => {
  test.each([
    ['thrushes-starlings', 'bird', 'displaced-fledgling', 'fledgling'],
    ['owls', 'bird', 'displaced-fledgling', 'owlet'],
    ['deer', 'mammal', 'young-waiting', 'fawn'],
    ['rabbits-hares', 'mammal', 'young-waiting', 'leveret'],
    ['seals', 'mammal', 'young-waiting', 'seal pup'],
    ['foxes', 'mammal', 'young-waiting', 'cub'],
    [undefined, 'bird', 'displaced-fledgling', 'fledgling'],
    [undefined, 'mammal', 'young-waiting', 'young'],
  ] as const)('of %s is left, once injury, cat and danger are denied', (group, klass, condition, advice) => {
    expect(leaveAlone({ ...fledgling, group, class: klass, conditions: [condition] })).toEqual({
      kind: 'leave',
      advice,
    })
  })

  test.each([
    [{}, ['injury', 'cat', 'danger']],
    [{ injury: 'no' }, ['cat', 'danger']],
    [{ injury: 'no', cat: 'unknown', danger: 'no' }, ['cat']],
  ] as const)('is not left before the questions are answered: %j', (answers, questions) => {
    expect(leaveAlone({ ...fledgling, answers })).toEqual({ kind: 'ask', questions })
  })

  test.each(['injury', 'cat', 'danger', 'bleeding', 'breathing', 'flies', 'wobbling'] as const)(
    'is not left when the answer to %s is yes',
    question => {
      expect(leaveAlone({ ...fledgling, answers: { ...asked, [question]: 'yes' } })).toEqual({
        kind: 'no',
        because: 'answer',
        question,
      })
    },
  )

  test('is not left when it does not react', () => {
    expect(leaveAlone({ ...fledgling, answers: { ...asked, conscious: 'no' } }).kind).toBe('no')
  })

  test.each([
    [{ ...fledgling, age: 'adult' }, 'adult'],
    [{ ...fledgling, group: 'swifts' }, 'kind'],
    [{ ...fledgling, group: 'hedgehogs' }, 'kind'],
    [{ ...fledgling, conditions: ['orphan-young'] }, 'not a case'],
    [{ ...fledgling, conditions: ['displaced-fledgling', 'cat-attack'] }, 'other condition'],
    [{ ...fledgling, conditions: [] }, 'not a case'],
  ] as const)('is not left: %j', (one, because) => {
    expect(leaveAlone(one)).toEqual({ kind: 'no', because })
  })
})

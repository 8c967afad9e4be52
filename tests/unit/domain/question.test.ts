import { describe, expect, test } from 'vitest'
import { CANNOT_WAIT, isOpenQuestion, isYesNoQuestion, questionsFor } from '#lib/domain/question.ts'
import { referenceTrade } from '#tests/support/reference.ts'

const trade = referenceTrade()
const asks = (...slugs: string[]) => trade.conditions.filter(one => slugs.includes(one.slug))

describe('the questions of a call', () => {
  test('know every question that a condition of the reference asks', () => {
    const unknown = trade.conditions
      .flatMap(one => one.asks_first)
      .filter(question => !isYesNoQuestion(question) && !isOpenQuestion(question))
    expect(unknown).toEqual([])
  })

  test('begin with what cannot wait, people before animals', () => {
    const asked = questionsFor(asks('cat-attack', 'wing-fracture'), { class: 'bird', isScreened: true })
    expect(asked.slice(0, 6)).toEqual(['danger', 'bitten', 'several-dead', 'nerves', 'breathing', 'bleeding'])
    expect(new Set(asked).size).toBe(asked.length)
  })

  test('screen birds and not mammals', () => {
    expect(questionsFor([], { class: 'mammal', isScreened: true })).toEqual(['danger', 'bitten'])
    expect(questionsFor([], { class: undefined, isScreened: true })).toEqual([
      'danger',
      'bitten',
      'several-dead',
      'nerves',
    ])
  })

  test('ask danger first of all', () => {
    expect(CANNOT_WAIT[0]).toBe('danger')
  })
})

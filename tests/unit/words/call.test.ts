import { describe, expect, test } from 'vitest'
import { DANGERS } from '#lib/domain/call-facts.ts'
import { CAUTIONS, type CautionId } from '#lib/domain/caution.ts'
import { OPEN_QUESTIONS, YES_NO_QUESTIONS } from '#lib/domain/question.ts'
import {
  changedWords,
  confirmedWords,
  finderSteps,
  keepTillMorning,
  leaveAdvice,
  missingWords,
  redirectWords,
  refusalAdvice,
  responsibleWords,
  suspectSteps,
} from '#lib/words/call.ts'
import { cautionWords, handlingWords, suspicionWords } from '#lib/words/caution.ts'
import { answeredWords, questionWords } from '#lib/words/question.ts'
import { referenceTrade } from '#tests/support/reference.ts'

const trade = referenceTrade()

describe('what is asked', () => {
  test('is one question for every key, no two alike', () => {
    const asked = [...YES_NO_QUESTIONS, ...OPEN_QUESTIONS].map(questionWords)
    expect(asked.filter(text => !text.endsWith('?'))).toEqual([])
    expect(new Set(asked).size).toBe(asked.length)
  })

  test('names what is missing for a first answer', () => {
    expect(missingWords([])).toBe('')
    expect(missingWords(['animal', 'wrong'])).toBe(
      'For an answer, ask which animal it is, or what it looks like, and what is wrong with it',
    )
  })

  test('says what an answer means', () => {
    expect(answeredWords('bleeding')).toBe('it bleeds')
  })
})

describe('what a finder is told', () => {
  test('is a box, dark, warm, no food or drink, and bites', () => {
    const steps = finderSteps({ isBat: false, isLarge: false, isCaught: false }).join(' ')
    expect(steps).toMatch(/box with air holes/)
    expect(steps).toMatch(/dark and quiet/i)
    expect(steps).toMatch(/warm/i)
    expect(steps).toMatch(/No food, no drink, no medicine/)
    expect(steps).toMatch(/bitten or scratched/)
  })

  test('is never bare hands for a bat, and distance for a large animal', () => {
    expect(finderSteps({ isBat: true, isLarge: false, isCaught: false })[0]).toMatch(/never bare hands/)
    expect(finderSteps({ isBat: false, isLarge: true, isCaught: false })).toHaveLength(1)
  })

  test('names who is called first at a danger, each once', () => {
    expect(responsibleWords([])).toBe('')
    expect(responsibleWords(['cliff', 'road'])).toBe(
      'Nobody goes near it. Call the coastguard, and the police or the road service first.',
    )
    expect(DANGERS.map(danger => responsibleWords([danger])).every(text => text.length > 20)).toBe(true)
  })

  test('ends advice to leave it with when to ring again', () => {
    for (const advice of ['fledgling', 'owlet', 'fawn', 'leveret', 'seal pup', 'cub', 'young'] as const) {
      expect(leaveAdvice(advice).at(-1)).toMatch(/^Ring again if it is hurt, a cat has had it/)
    }
  })

  test('says plainly that there was no place', () => {
    expect(refusalAdvice()[0]).toMatch(/no place/)
  })

  test('names the vet and the call back when it is kept till morning', () => {
    const said = keepTillMorning({ vetName: 'Dr Sallow', callBackAt: '08:00', keptBy: 'finder' })
    expect(said[0]).toBe('You keep it till morning; Dr Sallow has agreed to that.')
    expect(said).toContain('We ring you at 08:00.')
  })

  test('names place, number and hours when it is sent elsewhere', () => {
    expect(
      redirectWords({
        name: 'Swan Line',
        phone: '01632 960 020',
        takesWords: 'swans',
        hoursWords: 'day and night',
      }),
    ).toBe('Swan Line takes swans (day and night). Ring 01632 960 020 before you drive.')
  })

  test('is one sentence once a place is confirmed', () => {
    const said = { reference: 'Marram 13', centre: 'Fenmoor', by: '00:40', door: 'ring the bell' }
    expect(confirmedWords(said)).toBe('Take it to Fenmoor by 00:40 and say Marram 13; ring the bell.')
    expect(confirmedWords({ ...said, by: undefined })).toBe(
      'Take it to Fenmoor and say Marram 13; ring the bell.',
    )
  })

  test('is not to bring a suspected case', () => {
    const said = suspectSteps({ name: 'The authority', phone: '01632 960 099' })
    expect(said[0]).toMatch(/do not bring it/)
    expect(said.join(' ')).toContain('01632 960 099')
  })
})

test('facts that changed are counted', () => {
  expect([changedWords(1), changedWords(2)]).toEqual([
    '1 fact changed, rank again',
    '2 facts changed, rank again',
  ])
})

describe('cautions', () => {
  test('each have a heading without a full stop, a sentence and a mark in words', () => {
    for (const id of Object.keys(CAUTIONS) as CautionId[]) {
      const said = cautionWords({ id, ...CAUTIONS[id] })
      expect(said.head).not.toMatch(/\.$/)
      expect(said.say).toMatch(/[.?]$/)
      expect(said.mark).toMatch(/published|common practice|memory/)
    }
  })

  // seed/reference/species.md N14 (bats.org.uk) and trade.md S14, S92.
  test('repeat the numbers of their sources', () => {
    const say = (id: CautionId) => cautionWords({ id, ...CAUTIONS[id] }).say
    expect(say('bats')).toMatch(/at least five minutes with soap/)
    expect(say('transport')).toMatch(/beyond 4 hours/)
    expect(say('notifiable-suspect')).toMatch(/negative quick test changes nothing/)
  })

  test('name a suspicion and why', () => {
    expect(suspicionWords('avian influenza', ['several sick or dead'])).toBe(
      'Avian influenza is suspected: several birds are sick or dead',
    )
  })

  test('put every handling key of the reference into words', () => {
    const keys = [...new Set(trade.species.flatMap(one => one.handling_cautions))]
    expect(handlingWords(keys).filter((text, at) => text === keys[at])).toEqual([])
  })
})

import { describe, expect, test } from 'vitest'
import { ASK_STATES, askShown } from '#lib/domain/escalation.ts'
import {
  answeredWords,
  askHead,
  offersOf,
  practiceChoice,
  shownWords,
  triedWords,
  waitsFor,
  waitsWords,
} from '#lib/words/ask.ts'
import {
  animalWords,
  answerBy,
  askMailBody,
  askSentence,
  askText,
  centreFacts,
  thanksWords,
  vetFacts,
} from '#lib/words/ask-page.ts'

const ZONE = 'Europe/London'
const NIGHT = new Date('2026-11-28T23:53Z')
const SHOWN = [...new Set(ASK_STATES.flatMap(state => [askShown(state, null), askShown(state, NIGHT)]))]

describe('how an ask stands', () => {
  test('has words of its own for each state, in the list and as the head', () => {
    expect(SHOWN).toHaveLength(6)
    expect(new Set(SHOWN.map(shownWords)).size).toBe(SHOWN.length)
    const heads = SHOWN.map(shown => askHead({ shown, to: { name: 'North' }, comesAt: null }))
    expect(heads.filter(head => !head.includes('North'))).toEqual([])
    // Held or seen, the one thing to do is the same.
    expect(new Set(heads).size).toBe(SHOWN.length - 1)
  })

  test('says until when it waits, and how long that is', () => {
    const waits = (now: string) => waitsWords(NIGHT, new Date(now), ZONE)
    expect(waits('2026-11-28T23:46Z')).toBe('waits until 23:53, 7 min left')
    expect(waits('2026-11-28T20:53Z')).toBe('waits until 23:53, 3 h left')
    expect(waits('2026-11-28T23:53Z')).toBe('waits until 23:53, due now')
    expect(waits('2026-11-28T23:59Z')).toBe('waits until 23:53, due now')
  })

  test('names who answered when, why not, and when a vet sees it; what was not said is left out', () => {
    const said = { shown: 'agreed', by: 'Ada', at: NIGHT, reason: null, comesAt: null } as const
    expect(answeredWords(said, ZONE)).toBe('agreed, Ada, Sat 28 Nov, 23:53')
    expect(answeredWords({ ...said, comesAt: new Date('2026-11-29T10:00Z') }, ZONE)).toBe(
      'agreed, Ada, Sat 28 Nov, 23:53; seen by the vet Sun 29 Nov, 10:00',
    )
    expect(answeredWords({ ...said, shown: 'refused', reason: 'full' }, ZONE)).toContain('; full')
    expect(answeredWords({ ...said, shown: 'silent', by: null, at: null, reason: '' }, ZONE)).toBe('silent')
  })

  test('counts', () => {
    expect(waitsFor(['Rush 12'], 'North')).toBe('Rush 12 waits for the answer of North')
    expect(waitsFor(['Rush 12', 'Rush 13'], 'North')).toBe('Rush 12 and 1 more wait for the answer of North')
    expect(triedWords('Ada, 0311', NIGHT, ZONE)).toBe('Ada, 0311, rung from 23:53')
  })

  test('offers what the first centre has, and says of a practice what stands in the way', () => {
    const stop = (stage: string, name: string) => ({
      stage,
      housing: 'hospital-cage' as const,
      centre: { name },
    })
    expect(offersOf([])).toBe('')
    const offers = offersOf([stop('critical care', 'North'), stop('overwintering', 'South')])
    expect(offers).toMatch(/^critical care: /)
    expect(offers).not.toContain('overwintering')
    expect(practiceChoice('Rookhythe Vets', true, false)).toBe(
      'Rookhythe Vets, does not see this kind, no vet on duty now',
    )
    expect(practiceChoice('Rookhythe Vets', false, true)).toBe('Rookhythe Vets')
  })
})

const CASE = {
  reference: 'Rush 12',
  species: 'Kestrel',
  scientificName: 'Falco tinnunculus',
  temperament: '',
  age: 'adult',
  animals: 1,
  arrivedAt: NIGHT,
  isDiseaseSuspect: false,
  leaveWords: null,
  findings: [{ name: 'Long-bone fracture', severity: 'any', notedAt: NIGHT }],
  weights: [{ grams: 190, at: NIGHT }],
  stages: [{ stage: 'restricted activity', housing: 'hospital-cage', centre: 'North' }],
  keeper: 'finder',
  heldAt: null,
} as const

describe('the page of a link', () => {
  test('asks a centre to take it and a vet to see it', () => {
    expect(askSentence('Coast', CASE, false)).toBe('Coast asks you to take in: Kestrel, adult')
    expect(askSentence('Coast', CASE, true)).toBe('Coast asks you to see this casualty: Kestrel, adult')
    expect(animalWords({ ...CASE, age: 'unknown', animals: 3 })).toBe('3 of Kestrel')
  })

  test('leaves a gap where nothing was recorded, and one weight is no second one', () => {
    const facts = new Map(vetFacts(CASE, ZONE).map(({ term, value }) => [term, value]))
    expect(facts.get('Species')).toBe('Kestrel (Falco tinnunculus)')
    expect(facts.get('Weight at first')).toBe('190 g on 28 November')
    for (const gap of ['Weight last', 'Sex, ring or chip', 'Pictures', 'Handling', 'Last food']) {
      expect([gap, facts.get(gap)]).toEqual([gap, null])
    }
    expect(facts.get('Kept now')).toBe('with its finder, restricted activity')
    const suspect = { ...CASE, isDiseaseSuspect: true }
    const disease = (one: Parameters<typeof centreFacts>[0]) =>
      centreFacts(one, ZONE).find(({ term }) => term === 'Disease')?.value
    expect(disease(CASE)).toBe('no suspicion recorded')
    expect(disease(suspect)).toBe('notifiable disease suspected')
    expect(disease({ ...suspect, leaveWords: 'by the duty vet' })).toContain('leave given: by the duty vet')
  })

  test('says by when, and what was answered', () => {
    expect(answerBy(NIGHT, ZONE)).toBe('Answer by Sat 28 Nov, 23:53. After that somebody else is asked.')
    expect(thanksWords(false, null, NIGHT, null, ZONE)).toBe('Answered no: Sat 28 Nov, 23:53')
    expect(thanksWords(true, 'Ines', NIGHT, new Date('2026-11-29T10:00Z'), ZONE)).toBe(
      'Answered yes, to be seen Sun 29 Nov, 10:00: Sat 28 Nov, 23:53, Ines',
    )
  })

  test('as text says what is known, names what is not, and where to answer', () => {
    const sent = { network: 'Coast', phone: '0303', isVet: true, what: 'Pin the leg', offers: '', home: null }
    const text = askText({ ...sent, facts: vetFacts(CASE, ZONE), link: null })
    expect(text).toContain('Asked: Pin the leg')
    expect(text).toMatch(/Not recorded: .*pictures/)
    expect(text).not.toContain('null')
    expect(text.endsWith('To answer: ring 0303')).toBe(true)
    expect(askText({ ...sent, facts: [], link: 'https://x.example/a' })).toContain(
      'or open https://x.example/a',
    )
    const mail = askMailBody({ network: 'Coast', phone: '0303', link: 'https://x.example/a' })
    expect(mail).toContain('\nhttps://x.example/a\n')
    // A mail may be read by anybody: nothing of the case is in it.
    expect(mail).not.toContain('Kestrel')
  })
})

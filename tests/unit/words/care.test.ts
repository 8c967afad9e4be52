import { describe, expect, test } from 'vitest'
import { CHECKERS, SEVERITIES, TREATMENTS } from '#lib/domain/care-plan.ts'
import { CARE_STAGES, HOUSING_TYPES } from '#lib/domain/housing.ts'
import { ALIVE_ANSWERS, OUTCOMES, WHERE_NOW } from '#lib/domain/outcome.ts'
import { PRESETS } from '#lib/domain/policy.ts'
import { URGENCIES } from '#lib/domain/urgency.ts'
import {
  aloneWords,
  barWords,
  checkerWords,
  checkName,
  housingWords,
  misfitWords,
  stageMeans,
  stageWords,
} from '#lib/words/care.ts'
import { choiceWords, conditionsWords, severityWords, treatmentWords } from '#lib/words/condition.ts'
import { isPublished, markWords } from '#lib/words/mark.ts'
import { aliveWords, outcomeWords, recordedAs, whereNowWords } from '#lib/words/outcome.ts'
import { doorWords, durationWords, roadWords, whereWords } from '#lib/words/place.ts'
import { hoursWords, kmWeightWords, presetWords } from '#lib/words/setup.ts'
import { countWords, hitWords, massWords, preysWords, speciesLine } from '#lib/words/species.ts'
import { urgencyBecause, urgencyMeans, urgencyName } from '#lib/words/urgency.ts'
import { referenceRows } from '#tests/support/reference.ts'

test('every member of a list has words of its own', () => {
  const lists = [
    CARE_STAGES.map(stageWords),
    CARE_STAGES.map(stageMeans),
    HOUSING_TYPES.map(housingWords),
    SEVERITIES.map(severityWords),
    TREATMENTS.map(treatmentWords),
    CHECKERS.map(checkerWords),
    URGENCIES.map(urgencyName),
    URGENCIES.map(urgencyMeans),
    OUTCOMES.map(outcomeWords),
    ALIVE_ANSWERS.map(aliveWords),
    ALIVE_ANSWERS.flatMap(alive => WHERE_NOW[alive].map(whereNowWords)),
    PRESETS.map(preset => presetWords(preset).givesUp),
  ]
  for (const list of lists) {
    expect(new Set(list).size).toBe(list.length)
    expect(list.filter(text => text.trim() === '')).toEqual([])
  }
})

test('every check of the reference has a name', () => {
  const slugs = [...new Set(referenceRows('gates').map(row => row['check_slug'] ?? ''))]
  const read = (slug: string) => slug.charAt(0).toUpperCase() + slug.slice(1).replace(/-/g, ' ')
  expect(slugs.length).toBeGreaterThan(20)
  expect(slugs.map(checkName).filter(name => name === '')).toEqual([])
  expect(checkName('vet-word')).toBe("Vet's word")
  expect(checkName('beak-trim')).toBe(read('beak-trim'))
})

describe('why an enclosure is no place', () => {
  test.each([
    [
      { rule: 'wrong housing', has: 'outdoor-pen', wants: ['hospital-cage', 'indoor-pen'] },
      'It is an outdoor pen; this stage wants hospital cage or indoor pen',
    ],
    [
      { rule: 'isolation only', has: 'hospital-cage' },
      'It is a hospital cage; quarantine is kept in isolation only',
    ],
    [{ rule: 'kept for isolation' }, 'It is kept for quarantine'],
    [{ rule: 'too small', has: 2, needs: 4 }, 'Too small: size 2, 4 is needed'],
    [
      { rule: 'too short to fly in', hasM: 4.9, needsM: 30.5 },
      'Too short to fly in: 4.9 m, 30.5 m is needed',
    ],
    [{ rule: 'lacks', feature: 'pool' }, 'It has no pool'],
    [{ rule: 'not set up for', company: 'kestrels' }, 'It is not set up for KESTRELS'],
  ] as const)('%j', (misfit, words) => {
    expect(misfitWords(misfit, slug => slug.toUpperCase())).toBe(words)
  })
})

test('marks are said in full', () => {
  expect(markWords('R:S14+S16;CP')).toBe('published: S14, S16; common practice, no source')
  expect([markWords(null), markWords('D'), markWords('odd')]).toEqual([
    'no source given',
    'worked out from published figures',
    'odd',
  ])
  expect([isPublished('CP'), isPublished('CP;R:S2'), isPublished(null)]).toEqual([false, true, false])
})

test('places, roads and doors', () => {
  expect(whereWords({ how: 'coordinates', latitude: 54.5, longitude: -3.25 })).toBe('54.5000° N, 3.2500° W')
  expect(whereWords({ how: 'gazetteer', placeId: 1, name: 'Fenmoor', latitude: 0, longitude: 0 })).toBe(
    'Fenmoor',
  )
  expect(roadWords({ km: 31.2, minutes: 37.4 })).toBe('about 31 km, 37 min')
  expect([durationWords(65), durationWords(120), durationWords(59.7)]).toEqual(['1 h 5 min', '2 h', '1 h'])
  expect(doorWords({ kind: 'on-call', name: 'Wren Ashby', phone: '01632 960 100' })).toBe(
    'Wren Ashby opens, ring 01632 960 100 first',
  )
  expect([doorWords({ kind: 'shut', opens: '08:00' }), doorWords({ kind: 'open', until: null })]).toEqual([
    'shut until 08:00',
    'open round the clock',
  ])
})

test('animals', () => {
  expect([countWords(1, 'Kestrel'), countWords(6, 'Mallard'), countWords(2, 'Red fox')]).toEqual([
    '1 kestrel',
    '6 mallards',
    '2 animals (red fox)',
  ])
  expect(speciesLine({ common_name: 'Kestrel', scientific_name: 'Falco tinnunculus' })).toBe(
    'Kestrel, Falco tinnunculus',
  )
  expect([hitWords('Kestrel', 'Kestrel'), hitWords('Kestrel', 'windhover')]).toEqual([
    'Kestrel',
    'Kestrel (windhover)',
  ])
  expect([massWords(136, 314), massWords(7000, 14_500), massWords(null, 3)]).toEqual([
    'usually 136 to 314 g',
    'usually 7 to 14.5 kg',
    'weight not given',
  ])
  expect(preysWords(null)).toBe('Neither predator nor prey')
})

test('the rest of what is said', () => {
  expect(conditionsWords(['Broken wing', 'Mange', 'Oiled'])).toBe('Broken wing, Mange and Oiled')
  expect([conditionsWords([]), conditionsWords(['Mange'])]).toEqual(['Nothing said yet', 'Mange'])
  expect(choiceWords('moderate instead')).toMatch(/moderate/)
  expect(
    urgencyBecause(
      [
        { kind: 'answer', question: 'bleeding' },
        { kind: 'condition', condition: 'x' },
      ],
      () => 'Mange',
    ),
  ).toBe('because it bleeds, and of "Mange"')
  expect([barWords(null), barWords('release'), barWords('next stage')]).toEqual([
    'due, bars nothing',
    'needed before it may go',
    'needed before the next stage',
  ])
  expect(recordedAs('dead on arrival')).toBe('Recorded as: Dead on arrival')
  expect(kmWeightWords(40)).toBe('One animal one day without a proper place counts like 40 km of driving')
  expect(hoursWords(1, '08:00', '20:00')).toBe('Monday 08:00 to 20:00')
  expect([aloneWords(true), aloneWords(false)]).toEqual([
    'Alone: shares with nobody',
    'May share with its own kind',
  ])
})

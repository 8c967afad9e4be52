import { describe, expect, it } from 'vitest'
import type { PlacementOption } from '#lib/domain/option.ts'
import { outlookOf } from '#lib/plan/outlook.ts'
import { rankOptions } from '#lib/plan/rank-options.ts'
import {
  addedShortageWords,
  answerTitle,
  askFirstWords,
  countedWords,
  doorWords,
  optionRemarks,
  optionTitle,
  placeTonightWords,
  tellFinder,
  timeWords,
  travelWords,
} from '#lib/words/option.ts'
import { whyFirst, whyNot } from '#lib/words/option-cost.ts'
import { openForecast, question, resident, TODAY, withCentre } from '#tests/support/placement.ts'

const PRACTICE = {
  id: 'p1',
  name: 'Marl Cross vets',
  phone: '07000 000 300',
  seesGroup: true,
  hasCoverNow: true,
  road: { km: 3, minutes: 4 },
  toCentres: { ash: { km: 8, minutes: 10 }, birch: { km: 9, minutes: 11 } },
}
const OUTSIDE = {
  id: 'o1',
  name: 'Pinfold Rescue',
  phone: '07000 000 400',
  takesGroup: true,
  road: { km: 10, minutes: 12 },
}
const KEEP = {
  vetName: 'Dr Sorrel',
  agreedAt: { day: TODAY, clock: '23:30' },
  callBackAt: { day: TODAY + 1, clock: '08:00' },
  keptBy: 'finder',
} as const
const CALL = { today: TODAY, isCaught: true, hasFinder: true }

const outlook = outlookOf(openForecast([resident('long', 'flight-aviary', 'ash/flight-aviary')]))
const asked = question({ keep: KEEP, practices: [PRACTICE], outside: [OUTSIDE] })
const { options } = rankOptions(asked, outlook)
const of = (kind: string, id?: string): PlacementOption =>
  options.find(option => option.kind === kind && (id === undefined || option.to?.id === id))!
const suspected = rankOptions(
  { ...asked, suspect: { disease: 'avian influenza', hasLeave: false } },
  outlook,
).options
const left = rankOptions({ ...asked, isLeaveAlone: true }, outlook).options

describe('optionTitle', () => {
  it('says what is done, and where', () => {
    expect(optionTitle(of('admit', 'birch'), TODAY)).toBe('Birchover for the whole stay')
    expect(optionTitle(of('admit and move', 'ash'), TODAY)).toBe(
      'Ashdown Quay now, then Birchover for unlimited activity',
    )
    expect(optionTitle(of('vet'), TODAY)).toBe(
      'Straight to Marl Cross vets, then Birchover for restricted activity',
    )
    expect(optionTitle(of('keep till morning'), TODAY)).toBe('Keep it until 08:00 tomorrow, then Birchover')
    expect(optionTitle(of('redirect'), TODAY)).toBe('Send it to Pinfold Rescue, outside the network')
    expect(optionTitle(of('advice'), TODAY)).toBe('Advice only')
    expect(optionTitle(left[0]!, TODAY)).toBe('Leave it where it is')
    expect(optionTitle(suspected[0]!, TODAY)).toBe('Examined outside at Marl Cross vets')
    expect(optionTitle(suspected.find(option => option.kind === 'report')!, TODAY)).toBe(
      'Report it and leave it where it is',
    )
  })

  it('is the answer at the top of the page', () => {
    expect(answerTitle(options[0], TODAY)).toBe('Best now: Birchover for the whole stay')
    expect(answerTitle(left[0], TODAY)).toBe('Leave it where it is')
    expect(answerTitle(undefined, TODAY)).toMatch(/^No centre/)
  })
})

describe('why', () => {
  it('names the nearest that is not first, and what it lacks', () => {
    expect(whyFirst(options[0]!)).toMatch(
      /^Not the nearest, but costs \d+\.\d place-days? less than the whole stay at Ashdown Quay: Ashdown Quay may have no flight aviary free during unlimited activity\.$/,
    )
  })

  it('calls nothing but an admission further than the nearest', () => {
    const stuck = asked.centres.map(each => ({ ...each, freeTonight: [] }))
    const [vet] = rankOptions({ ...asked, centres: stuck, keep: null, outside: [] }, outlook).options
    expect(vet!.kind).toBe('vet')
    const less = (-vet!.comparison!.difference).toFixed(1)
    expect(whyFirst(vet!)).toMatch(
      new RegExp(`^Costs ${less} place-days less than the whole stay at Ashdown Quay: `),
    )
    expect(whyFirst(vet!)).toContain('Ashdown Quay has no proper place free tonight')
  })

  it('names what an option costs more, and what less', () => {
    expect(whyNot(of('admit', 'cedar'))).toBe(
      'Costs 0.8 place-days more than the whole stay at Birchover: the drive to Cedar Sands is 54 km.',
    )
    expect(whyNot(of('admit', 'ash'))).toMatch(
      /With the whole stay at Birchover, the drive to Birchover is 24 km\.$/,
    )
    expect(whyNot(of('advice'))).toMatch(/refusal/)
  })

  it('says by which rule something comes first', () => {
    expect(whyFirst(left[0]!)).toMatch(/leave it/)
    expect(whyFirst(suspected[0]!)).toMatch(/examined outside and reported/)
  })

  it('says so where two are as good, and where nothing else is left', () => {
    const even = rankOptions(
      question({ centres: [asked.centres[1]!, { ...asked.centres[2]!, road: asked.centres[1]!.road }] }),
      outlook,
    )
    expect(whyFirst(even.options[0]!)).toBe('As good as the whole stay at Cedar Sands; it is named first.')
    const alone = rankOptions(question({ centres: [] }), outlook)
    expect(alone.options).toHaveLength(1)
    expect(whyFirst(alone.options[0]!)).toBe('Nothing else can be offered.')
  })
})

describe('tellFinder', () => {
  it.each([...options, ...suspected, ...left].map(option => [option.key, option] as const))(
    'has whole sentences for %s',
    (_, option) => {
      for (const call of [CALL, { ...CALL, isCaught: false }, { ...CALL, hasFinder: false }]) {
        const lines = tellFinder(option, call)
        expect(lines.length).toBeGreaterThan(0)
        for (const line of lines) expect(line).toMatch(/^[A-Z].*\.$/)
        expect(lines.join(' ')).not.toMatch(/undefined|null|NaN/)
      }
    },
  )

  it('says where to bring it, how far, and who opens', () => {
    expect(tellFinder(of('admit', 'birch'), CALL)).toEqual([
      'Bring it to Birchover: 24 km, about 29 minutes.',
    ])
    const onCall = { kind: 'on-call', name: 'Wren A.', phone: '07000 000 101' } as const
    const door = rankOptions(withCentre(asked, 'birch', { door: onCall }), outlook).options[0]!
    expect(tellFinder(door, CALL)[1]).toBe(
      'Wren A. opens the door for you. Ring 07000 000 101 when you set off.',
    )
  })

  it('keeps an animal only with the vet’s name, the instructions and the hour of the call-back', () => {
    const lines = tellFinder(of('keep till morning'), CALL).join(' ')
    expect(lines).toContain('Dr Sorrel agreed at 23:30.')
    expect(lines).toContain('We ring you back at 08:00 tomorrow')
    expect(lines).toContain('No food, no drink, no medicine')
  })

  it('never lets a suspected animal in', () => {
    for (const option of suspected.filter(each => each.kind === 'examine outside')) {
      expect(tellFinder(option, CALL).join(' ')).toContain('not brought into the building')
    }
  })

  it('asks nobody to chase what is not caught', () => {
    expect(tellFinder(of('admit', 'birch'), { ...CALL, isCaught: false })[0]).toMatch(/^Do not chase it/)
  })
})

describe('remarks', () => {
  it('say what to ask first, with the figures', () => {
    const ask = { phone: '07000 000 100', offered: 4, left: 1, wanted: 3 }
    expect(askFirstWords(ask)).toBe(
      'Ask first, 07000 000 100: it lets us fill 4 without asking, 1 is left and this call brings 3',
    )
    expect(askFirstWords({ ...ask, phone: null, offered: null })).toBe(
      'Ask first: nothing is agreed for this group',
    )
  })

  it('say how old a count is', () => {
    expect([null, 0, 1, 3].map(countedWords)).toEqual([
      'Never counted, ring first',
      'Counted today',
      'Counted yesterday, ring first',
      'Counted 3 days ago, ring first',
    ])
    const old = rankOptions(withCentre(asked, 'birch', { countedDaysAgo: 3 }), outlook).options[0]!
    expect(optionRemarks(old, CALL)).toEqual(['Counted 3 days ago, ring first'])
    expect(optionRemarks(options[0]!, CALL)).toEqual([])
  })

  it('say that somebody has to go', () => {
    expect(optionRemarks(options[0]!, { ...CALL, hasFinder: false })).toEqual([
      'Nobody is with it: somebody has to fetch it',
    ])
    expect(optionRemarks(of('redirect'), { ...CALL, isCaught: false })).toEqual([
      'Kept as unmet demand',
      'Nobody has caught it yet: the place waits, somebody has to go',
    ])
  })

  it('say what is held, and who has no place', () => {
    expect(placeTonightWords(options[0]!)).toBe('Held tonight: cage 1')
    expect(placeTonightWords({ ...options[0]!, placesTonight: [], shortTonight: 1 })).toBe(
      '1 animal has no proper place tonight',
    )
    expect(placeTonightWords({ ...options[0]!, shortTonight: 2 })).toBe(
      'Held tonight: cage 1. 2 animals have no proper place tonight',
    )
  })
})

describe('small words', () => {
  it('say a time from today', () => {
    expect(timeWords({ day: TODAY, clock: '08:00' }, TODAY)).toBe('08:00')
    expect(timeWords({ day: TODAY + 1, clock: '08:00' }, TODAY)).toBe('08:00 tomorrow')
    expect(timeWords({ day: TODAY + 5, clock: '08:00' }, TODAY)).toBe('08:00 on Mon 30 Nov')
  })

  it('say a way, a door and a shortage', () => {
    expect(travelWords({ km: 11.4, minutes: 19.6 })).toBe('11 km, 20 min')
    expect(doorWords({ kind: 'on-call', name: 'Wren A.', phone: null })).toBe('Wren A. opens')
    expect(doorWords({ kind: 'staffed' })).toBe('Somebody is there through the night')
    expect(addedShortageWords({ withinHorizon: 0.8, beyond: 0.1, withoutHousing: 0 })).toBe('0.90 place-days')
    expect(addedShortageWords({ withinHorizon: 0.8, beyond: 0.1, withoutHousing: 2 })).toBe(
      '0.90 place-days, and 2.00 without such housing',
    )
  })
})

import { describe, expect, test } from 'vitest'
import { emptyCallFacts, whatIsMissing } from '#lib/domain/call-facts.ts'
import { NOTES_MAX } from '#lib/domain/call-limits.ts'
import {
  conditionsOffered,
  mergeSheets,
  placesOffered,
  readSheet,
  type SheetInput,
  speciesOffered,
} from '#lib/domain/call-sheet.ts'
import { isFailure } from '#lib/kernel/failure.ts'
import { referenceTrade } from '#tests/support/reference.ts'

const place = (id: number, name: string, latitude: number) => ({
  id,
  name,
  kind: 'village',
  also_called: [],
  latitude,
  longitude: 1.5,
})
const trade = {
  ...referenceTrade(),
  places: [place(1, 'Sallowmere', 52.1), place(2, 'Upper Quell', 52.2), place(3, 'Lower Quell', 52.3)],
}
const NOON = new Date('2026-11-25T12:00:00Z')
const LATER = new Date('2026-11-25T13:00:00Z')
const read = (input: SheetInput, before = emptyCallFacts(), now = NOON) =>
  readSheet(input, before, trade, now)

describe('the animal', () => {
  test.each(['kestrel', 'kes', ' Kestrel ', 'kestrl', 'windhover'])('is known from "%s"', typed => {
    expect(read({ animalTyped: typed }).species).toBe('kestrel')
  })

  test('stays open while the words mean several, which are offered', () => {
    const facts = read({ animalTyped: 'owl' })
    expect([facts.species, facts.animalTyped]).toEqual([null, 'owl'])
    const offered = speciesOffered(facts, trade).map(one => one.slug)
    expect(offered).toEqual(expect.arrayContaining(['barn-owl', 'tawny-owl']))
    expect(speciesOffered(read({ animalTyped: 'kes' }), trade)).toEqual([])
  })

  test.each([
    ['gull', ['herring-gull', 'lesser-black-backed-gull', 'black-headed-gull']],
    ['seagull', ['herring-gull', 'lesser-black-backed-gull']],
  ])('is not the one that people mostly mean by "%s": its kind is offered', (typed, kinds) => {
    const facts = read({ animalTyped: typed })
    expect(facts.species).toBe(null)
    expect(speciesOffered(facts, trade).map(one => one.slug)).toEqual(expect.arrayContaining(kinds))
  })

  test.each([
    ['Herring gull', 'herring-gull'],
    ['robin', 'robin'],
    ['Barn owl', 'barn-owl'],
  ])('is known by its whole name, %s', (name, slug) => expect(read({ animalTyped: name }).species).toBe(slug))

  test('may stand in for the kind until somebody tells which, held as the strictest', () => {
    const open = read({ animalTyped: 'gull' })
    const standIn = speciesOffered(open, trade).at(-1)
    expect(standIn).toMatchObject({ is_stand_in: true, class: 'bird' })
    const chosen = read({ animalTyped: 'gull', species: standIn?.slug }, open)
    expect([chosen.species, chosen.animalTyped]).toEqual([standIn?.slug, 'gull'])
    expect(read({ animalTyped: 'gull', species: 'herring-gull' }, chosen).species).toBe('herring-gull')
  })

  test('is kept in words where nothing is known by them', () => {
    const facts = read({ animalTyped: 'quaggalope' })
    expect([facts.species, facts.animalTyped]).toEqual([null, 'quaggalope'])
    expect(speciesOffered(facts, trade)).toEqual([])
  })

  test('stands as chosen until the words change', () => {
    const chosen = read({ animalTyped: 'owl', species: 'tawny-owl' })
    expect(chosen.species).toBe('tawny-owl')
    expect(read({ animalTyped: 'owl', species: 'tawny-owl' }, chosen).species).toBe('tawny-owl')
    expect(read({ animalTyped: 'kestrel', species: 'tawny-owl' }, chosen).species).toBe('kestrel')
    expect(read({ animalTyped: 'owl', species: 'no-such-owl' }).species).toBe(null)
  })
})

describe('what is wrong', () => {
  const typed = { animalTyped: 'kestrel', wrongTyped: 'broken leg' }
  const ticked = read(typed)

  test('is ticked by the words that name it', () => {
    expect(ticked.conditions).toEqual([{ slug: 'leg-fracture', severity: null }])
    expect(read({ ...typed, wrongTyped: 'it just sits there' }).conditions).toEqual([])
  })

  test('is ticked once: unticking stands while the words stay', () => {
    const unticked = read(typed, ticked)
    expect(unticked.conditions).toEqual([])
    expect(read(typed, unticked).conditions).toEqual([])
    expect(read({ ...typed, conditions: ['leg-fracture'] }, ticked).conditions).toHaveLength(1)
  })

  test('adds to what is ticked already, and keeps how bad that is', () => {
    const both = read({ ...typed, conditions: ['emaciation', 'no-such'], severity: { emaciation: 'severe' } })
    expect(both.conditions).toEqual([
      { slug: 'emaciation', severity: 'severe' },
      { slug: 'leg-fracture', severity: null },
    ])
  })

  test('is offered chosen first, then what the words match, then the rest of the class, each once', () => {
    const facts = read({ ...typed, wrongTyped: 'fishing line', conditions: ['emaciation'] })
    const offered = conditionsOffered(facts, trade)
    expect(offered.slice(0, 2).map(one => one.slug)).toEqual(['emaciation', 'tackle'])
    expect(new Set(offered).size).toBe(offered.length)
    expect(offered.map(one => one.applies_to)).not.toContain('mammal')
    expect(conditionsOffered(emptyCallFacts(), trade)).toHaveLength(trade.conditions.length)
  })
})

describe('where', () => {
  test('is a place of the gazetteer, coordinates, or words that stay words', () => {
    expect(read({ whereTyped: 'sallow' }).where).toMatchObject({
      how: 'gazetteer',
      placeId: 1,
      latitude: 52.1,
    })
    expect(read({ whereTyped: '52.25, 1.75' }).where).toMatchObject({
      how: 'coordinates',
      latitude: 52.25,
      placeId: null,
    })
    const words = read({ whereTyped: 'behind the old kiln' })
    expect([words.where, words.whereTyped]).toEqual([null, 'behind the old kiln'])
  })

  test('stays open where two places fit as well, until one is chosen', () => {
    const open = read({ whereTyped: 'quell' })
    expect(open.where).toBe(null)
    expect(placesOffered(open, trade).map(one => one.id)).toEqual([3, 2])
    expect(read({ whereTyped: 'quell', place: '2' }).where).toMatchObject({ placeId: 2 })
    expect(read({ whereTyped: 'sallowmere', place: '2' }).where).toMatchObject({ placeId: 1 })
  })
})

describe('the rest of the sheet', () => {
  test('means "not said" where nothing was sent', () => {
    expect(read({})).toEqual(emptyCallFacts())
    expect(whatIsMissing(read({}))).toEqual(['animal', 'where', 'wrong'])
  })

  test('reads counts, ticks and lists, and leaves out what no list knows', () => {
    const facts = read({
      count: '3',
      seenOnly: 'on',
      noFinder: 'on',
      dangers: ['water', 'lava', 'road'],
      answers: { breathing: 'yes', danger: 'perhaps', 'no-such': 'yes' },
      urgency: 'whenever',
    })
    expect(facts).toMatchObject({ count: 3, isCaught: false, hasFinder: false, urgency: null })
    expect(facts.dangers).toEqual(['road', 'water'])
    expect(facts.answers).toEqual({ breathing: 'yes' })
    expect([
      read({ count: 'a few' }).count,
      read({ count: '0' }).count,
      read({ count: '9000' }).count,
    ]).toEqual([1, 1, 500])
  })

  test('keeps the moment a vet agreed while it is the same vet', () => {
    const agreed = read({ vetName: 'A. Marl' })
    expect(agreed.vetKeeps).toEqual({ vetName: 'A. Marl', agreedAt: NOON.toISOString(), keptBy: 'finder' })
    expect(read({ vetName: 'A. Marl' }, agreed, LATER).vetKeeps?.agreedAt).toBe(NOON.toISOString())
    expect(read({ vetName: 'B. Fenn' }, agreed, LATER).vetKeeps?.agreedAt).toBe(LATER.toISOString())
    expect(read({ vetName: '' }, agreed, LATER).vetKeeps).toBe(null)
  })

  test('says which field is too long, and by what limit', () => {
    expect(read({ notes: 'n'.repeat(NOTES_MAX) }).notes).toHaveLength(NOTES_MAX)
    try {
      read({ notes: 'n'.repeat(NOTES_MAX + 1) })
      expect.unreachable()
    } catch (thrown) {
      if (!isFailure(thrown)) throw thrown
      expect(thrown.problems).toEqual([{ field: 'notes', reason: 'too-long', limit: NOTES_MAX }])
    }
  })
})

describe('two people at one sheet', () => {
  const seen = { ...emptyCallFacts(), notes: 'by the gate', finderName: 'Ann' }

  test('keeps what two people ticked in one list, and what either took away', () => {
    const ticked = (...slugs: string[]) => slugs.map(slug => ({ slug, severity: null }))
    const seen = { ...emptyCallFacts(), conditions: ticked('a', 'b'), dangers: ['road' as const] }
    const other = { ...seen, conditions: ticked('a', 'b', 'c'), dangers: ['road' as const, 'water' as const] }
    const mine = {
      ...seen,
      conditions: [{ slug: 'a', severity: 'severe' as const }, ...ticked('d')],
      dangers: ['rail' as const],
    }
    const merged = mergeSheets(seen, mine, other)
    expect(merged.conditions).toEqual([{ slug: 'a', severity: 'severe' }, ...ticked('c', 'd')])
    expect(merged.dangers).toEqual(['rail', 'water'])
    expect(mergeSheets(seen, seen, other)).toEqual(other)
  })

  test('holds no more conditions than a sheet may', () => {
    const ticked = (...slugs: string[]) => slugs.map(slug => ({ slug, severity: null }))
    const sheet = (...slugs: string[]) => ({ ...emptyCallFacts(), conditions: ticked(...slugs) })
    const merged = mergeSheets(sheet(), sheet('a', 'b', 'c', 'd'), sheet('e', 'f', 'g'))
    expect(merged.conditions).toEqual(ticked('e', 'f', 'g', 'a', 'b', 'c'))
  })

  test('keep the fields of both', () => {
    const merged = mergeSheets(seen, { ...seen, sinceWhen: 'dawn' }, { ...seen, finderPhone: '01' })
    expect(merged).toEqual({ ...seen, sinceWhen: 'dawn', finderPhone: '01' })
  })

  test('keep the last word on a field that both changed, and an emptied field empty', () => {
    const merged = mergeSheets(
      seen,
      { ...seen, notes: 'by the stile', finderName: '' },
      { ...seen, notes: 'by the weir' },
    )
    expect([merged.notes, merged.finderName]).toEqual(['by the stile', ''])
  })

  test('keep the answers of both, each question for itself', () => {
    const asked = { ...seen, answers: { danger: 'no', bitten: 'unknown' } as const }
    const merged = mergeSheets(
      asked,
      { ...asked, answers: { bitten: 'unknown', breathing: 'yes' }, told: { height: 'a roof' } },
      { ...asked, answers: { danger: 'no', bitten: 'yes' }, told: { 'since-when': 'dawn' } },
    )
    expect(merged.answers).toEqual({ bitten: 'yes', breathing: 'yes' })
    expect(merged.told).toEqual({ 'since-when': 'dawn', height: 'a roof' })
  })
})

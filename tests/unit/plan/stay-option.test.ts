import { describe, expect, it } from 'vitest'
import type { PlacementQuestion } from '#lib/plan/model.ts'
import { outlookOf } from '#lib/plan/outlook.ts'
import { admissionOptions, keepOption, pricedStay, vetOption } from '#lib/plan/stay-option.ts'
import { type ArrivalMode, stayTable } from '#lib/plan/stay-table.ts'
import { openForecast, question, resident, TODAY, withCentre } from '#tests/support/placement.ts'

const outlook = outlookOf(openForecast([resident('long', 'flight-aviary', 'ash/flight-aviary')]))
const stay = (asked: PlacementQuestion, mode: ArrivalMode) =>
  pricedStay(asked, outlook, stayTable(asked, outlook, mode))
const many = (count: number, changes: Partial<PlacementQuestion> = {}) => {
  const asked = question(changes)
  return { ...asked, animals: { ...asked.animals, count } }
}

const CAGE = question().animals.stages[0]!.needs[0]
/** The nearest centre's cages are full for a few days, and nothing else is. */
const crowded = outlookOf(
  openForecast(['a', 'b'].map(id => resident(id, 'hospital-cage', 'ash/hospital-cage', 5))),
)

function admissionOrVet(asked: PlacementQuestion, mode: ArrivalMode): number {
  const priced = pricedStay(asked, crowded, stayTable(asked, crowded, mode))
  const option = mode === 'tonight' ? admissionOptions(priced, 0)[0]! : vetOption(priced, PRACTICE)
  return option.addedShortage.withinHorizon
}

const PRACTICE = {
  id: 'p1',
  name: 'Marl Cross vets',
  phone: null,
  seesGroup: true,
  hasCoverNow: true,
  road: { km: 3, minutes: 4 },
  toCentres: { ash: { km: 8, minutes: 10 }, birch: { km: 9, minutes: 11 } },
}
const KEEP = {
  vetName: 'Dr Sorrel',
  agreedAt: { day: TODAY, clock: '23:30' },
  callBackAt: { day: TODAY + 1, clock: '08:00' },
  keptBy: 'finder',
} as const

describe('admissionOptions', () => {
  it('holds places in one enclosure where it has room for all', () => {
    const freeTonight = [
      { enclosureId: 'small', placeNo: 1, name: 'cage 1' },
      { enclosureId: 'pen', placeNo: 1, name: 'pen 2' },
      { enclosureId: 'pen', placeNo: 2, name: 'pen 2' },
    ]
    const asked = withCentre(many(2), 'ash', { freeTonight })
    const [option] = admissionOptions(stay(asked, 'tonight'), 0)
    expect(option!.placesTonight.map(place => place.enclosureId)).toEqual(['pen', 'pen'])
    const [apart] = admissionOptions(stay(withCentre(many(3), 'ash', { freeTonight }), 'tonight'), 0)
    expect(apart!.placesTonight).toHaveLength(3)
  })

  it('is offered short of places, with the term for each animal without one', () => {
    const asked = withCentre(many(3), 'ash', { freeTonight: question().centres[0]!.freeTonight.slice(0, 1) })
    const [option] = admissionOptions(stay(asked, 'tonight'), 0)
    expect(option).toMatchObject({ shortTonight: 2 })
    expect(option!.terms[0]).toMatchObject({ kind: 'no place on arrival', short: 2, value: 8 })
    expect(option!.path[0]!.chanceOfPlace).toBeCloseTo(1 / 3, 12)
    expect(option!.weakest).toBe(1)
  })

  it('moves a brood once, if any of it lives to need it', () => {
    const [, moving] = admissionOptions(stay(many(3), 'tonight'), 0)
    const { reachProbability } = moving!.path[1]!
    expect(moving!.moves).toHaveLength(1)
    expect(moving!.moves[0]!.probability).toBeCloseTo(1 - (1 - reachProbability) ** 3, 12)
  })

  it('charges a move by the chance that is shown with it', () => {
    const [, moving] = admissionOptions(stay(many(2), 'tonight'), 0)
    const [move] = moving!.moves
    const term = moving!.terms.find(each => each.kind === 'transfer')
    expect(term).toMatchObject({ probability: move!.probability })
    expect(term!.value).toBeCloseTo(2 * move!.probability, 12)
    expect(move!.probability).toBeLessThan(1)
  })

  it('asks first beyond what the centre lets the desk fill', () => {
    const [option] = admissionOptions(
      stay(withCentre(many(2), 'ash', { offer: { places: 3, left: 1 } }), 'tonight'),
      0,
    )
    expect(option!.askFirst).toEqual({ phone: '07000 000 100', offered: 3, left: 1, wanted: 2 })
  })
})

describe('vetOption', () => {
  it('leaves tonight to the practice and lets the cheapest centre follow', () => {
    const option = vetOption(stay(question(), 'after a vet'), PRACTICE)
    expect(option.path.map(stop => stop.centre.id)).toEqual(['birch', 'birch'])
    expect(option.moves[0]).toMatchObject({
      from: { id: 'p1' },
      to: { id: 'birch' },
      km: 9,
      on: { q50: TODAY + 1 },
    })
    expect(option.placesTonight).toEqual([])
    expect(option.ribbon!.groundChance[0]).toBe(1)
  })

  it('counts nothing of tonight among what it costs others', () => {
    const day = (mode: ArrivalMode) => admissionOrVet(question({ centres: [question().centres[0]!] }), mode)
    const { walk } = stayTable(question(), crowded, 'tonight')
    const tonight = walk[0]!.present[0]! * crowded.prices('ash/hospital-cage', CAGE, 1)[0]!
    expect(tonight).toBeGreaterThan(0.5)
    expect(day('tonight') - day('after a vet')).toBeCloseTo(tonight, 9)
  })

  it('follows no road that is not known', () => {
    const { path } = vetOption(stay(question(), 'after a vet'), { ...PRACTICE, toCentres: {} })
    expect(path).toEqual([])
  })
})

describe('the centre that follows', () => {
  it('is the one with the smallest total, a place that may be missing tomorrow included', () => {
    const asked = question({ keep: KEEP, centres: question().centres.slice(0, 2) })
    const following = (from: PlacementQuestion) =>
      keepOption(pricedStay(from, crowded, stayTable(from, crowded, 'tomorrow')))!
    const alone = asked.centres.map(each => following({ ...asked, centres: [each] }).total)
    const best = following(asked)
    expect(best.total).toBeCloseTo(Math.min(...alone), 9)
    expect(best.to!.id).toBe('birch')
    const near =
      alone[0]! - asked.policy.omega * stayTable(asked, crowded, 'tomorrow').stages[0]![0]!.onArrival
    expect(near).toBeLessThan(best.total)
  })
})

describe('keepOption', () => {
  it('names the centre of the morning and the vet’s word', () => {
    const option = keepOption(stay(question({ keep: KEEP }), 'tomorrow'))!
    expect(option).toMatchObject({ kind: 'keep till morning', keep: KEEP, door: null, placesTonight: [] })
    expect(option.terms.map(term => term.kind)).toContain('drive')
    expect(option.path[0]!.from.q10).toBe(TODAY + 1)
  })

  it('is nothing without a word or without a centre', () => {
    expect(keepOption(stay(question(), 'tomorrow'))).toBeNull()
    const none = question({
      keep: KEEP,
      centres: question().centres.map(each => ({ ...each, takesGroup: false })),
    })
    expect(keepOption(stay(none, 'tomorrow'))).toBeNull()
  })
})

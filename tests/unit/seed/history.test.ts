import { describe, expect, it } from 'vitest'
import { seededRandom } from '#lib/numerics/random.ts'
import { listMoments } from '#seed/history/moment.ts'
import { simulateHistory } from '#seed/history/simulate.ts'
import type { Casualty, Change } from '#seed/history/types.ts'
import { readTradeFromReference } from '#seed/load/knowledge.ts'
import { listEnclosures, listRooms } from '#seed/scenario/site.ts'

const ZONE = 'Europe/London'
const NOW = new Date('2026-07-10T20:40:00Z')
const trade = readTradeFromReference()
const birdStop = { centreId: 4, since: NOW.getTime() - 6 * 86_400_000 }
const live = (days: number) => simulateHistory({ trade, now: NOW, zone: ZONE, days, seed: 3, birdStop })
const year = live(365)

type Stay = { from: number; until: number; casualty: Casualty; change: Change }

function staysOf(casualties: readonly Casualty[]): Map<number, Stay[]> {
  const stays = new Map<number, Stay[]>()
  for (const casualty of casualties) {
    casualty.changes.forEach((change, at) => {
      if (change.enclosureId === undefined) return
      const until = casualty.changes[at + 1]?.at ?? Infinity
      const list = stays.get(change.enclosureId) ?? []
      stays.set(change.enclosureId, [...list, { from: change.at, until, casualty, change }])
    })
  }
  return stays
}

const overlap = (a: Stay, b: Stay) => a.from < b.until && b.from < a.until

function* pairs(list: readonly Stay[]): Generator<[Stay, Stay]> {
  const sorted = list.toSorted((a, b) => a.from - b.from)
  for (const [at, a] of sorted.entries()) {
    for (const b of sorted.slice(at + 1)) {
      if (b.from >= a.until) continue
      if (overlap(a, b)) yield [a, b]
    }
  }
}

describe('the generated history', () => {
  it('is the same for the same day, and another for another seed', () => {
    expect(live(60)).toEqual(live(60))
    const other = simulateHistory({ trade, now: NOW, zone: ZONE, days: 60, seed: 4, birdStop })
    expect(other).not.toEqual(live(60))
  })

  it('never puts two animals in one place, nor unlike companies in one enclosure', () => {
    let together = 0
    for (const list of staysOf(year).values()) {
      for (const [a, b] of pairs(list)) {
        together++
        expect(a.change.placeNo).not.toBe(b.change.placeNo)
        expect(a.casualty.animal.company).toBe(b.casualty.animal.company)
        expect(a.casualty.animal.isAlone || b.casualty.animal.isAlone).toBe(false)
      }
    }
    expect(together).toBeGreaterThan(100)
  })

  it('keeps predators and prey in unlike rooms where the room asks it', () => {
    const apart = new Set(listRooms().flatMap(room => (room.predators_apart ? [room.id] : [])))
    const roomOf = new Map(listEnclosures().map(one => [one.id, one.room_id]))
    const byRoom = new Map<number, Stay[]>()
    for (const [enclosure, list] of staysOf(year)) {
      const room = roomOf.get(enclosure)!
      if (apart.has(room)) byRoom.set(room, [...(byRoom.get(room) ?? []), ...list])
    }
    expect(byRoom.size).toBeGreaterThan(2)
    for (const list of byRoom.values()) {
      for (const [a, b] of pairs(list)) {
        const sides = new Set([a, b].map(stay => stay.casualty.animal.preys).filter(side => side !== null))
        expect(sides.size).toBeLessThan(2)
      }
    }
  })

  it('has one keeper at every instant, in the order of time, none after now', () => {
    for (const { changes } of year) {
      changes.forEach((change, at) => {
        expect(change.at).toBeLessThanOrEqual(NOW.getTime())
        if (at > 0) expect(change.at).toBeGreaterThan(changes[at - 1]!.at)
        if (change.keeper === 'nobody') expect(at).toBe(changes.length - 1)
      })
    }
  })

  it('records apart when an animal was ready and when it moved', () => {
    const waits = year.flatMap(({ marks }) =>
      marks.flatMap((mark, at) => {
        const next = marks[at + 1]
        return mark.kind === 'ready' && next !== undefined ? [next.at - mark.at] : []
      }),
    )
    expect(Math.min(...waits)).toBeGreaterThanOrEqual(0)
    expect(waits.filter(wait => wait > 86_400_000).length).toBeGreaterThan(5)
  })

  it('follows the seasons: young in their months, swifts in summer, hedgehogs most in autumn', () => {
    const month = (one: Casualty) => new Date(one.arrival.at).getUTCMonth() + 1
    const swifts = year.filter(one => one.animal.group === 'swifts')
    expect(swifts.length).toBeGreaterThan(10)
    for (const swift of swifts) expect([4, 5, 6, 7, 8, 9]).toContain(month(swift))
    const hedgehogs = year.filter(one => one.animal.group === 'hedgehogs')
    const autumn = hedgehogs.filter(one => [9, 10].includes(month(one)))
    // Czech centres: 25.30 % in September, 22.14 % in October (Lukesova et al. 2021, source S32).
    expect(autumn.length / hedgehogs.length).toBeGreaterThan(0.38)
    expect(autumn.length / hedgehogs.length).toBeLessThan(0.57)
    for (const one of year.filter(casualty => casualty.animal.age === 'young')) {
      const { young_from_month: from, young_to_month: to } = trade.speciesBySlug.get(one.animal.species)!
      const isIn =
        from! <= to! ? from! <= month(one) && month(one) <= to! : month(one) >= from! || month(one) <= to!
      expect(isIn).toBe(true)
    }
  })

  it('moves no bird into or out of the stopped centre', () => {
    for (const one of year.filter(casualty => casualty.animal.class === 'bird')) {
      const centres = one.changes.filter(change => change.keeper === 'centre')
      centres.forEach((change, at) => {
        if (change.at < birdStop.since + 3 * 3_600_000) return
        const before = centres[at - 1]?.centreId
        if (change.centreId === birdStop.centreId) expect(before).toBe(birdStop.centreId)
        if (before === birdStop.centreId) expect(change.centreId).toBe(birdStop.centreId)
      })
    }
  })

  it('brings litters: one arrival, several animals of one kind, counted apart', () => {
    const litters = new Map<number, Casualty[]>()
    for (const one of year) {
      if (one.batchNo !== null) litters.set(one.batchNo, [...(litters.get(one.batchNo) ?? []), one])
    }
    expect(litters.size).toBeGreaterThan(50)
    for (const litter of litters.values()) {
      expect(new Set(litter.map(one => one.arrival.id)).size).toBe(1)
      expect(new Set(litter.map(one => one.animal.species)).size).toBe(1)
      expect(litter.map(one => one.memberNo)).toEqual(litter.map((_, at) => at + 1))
    }
  })

  it('is cut into entries that lose no fact and are made in the order of time', () => {
    const moments = listMoments(year, seededRandom(1), NOW.getTime())
    expect(moments.flatMap(moment => moment.facts)).toHaveLength(year.flatMap(one => one.changes).length)
    expect(moments.flatMap(moment => moment.marks)).toHaveLength(year.flatMap(one => one.marks).length)
    moments.forEach((moment, at) => {
      if (at > 0) expect(moment.at).toBeGreaterThanOrEqual(moments[at - 1]!.at)
    })
  })

  it('is written down animal by animal in the order in which it happened, its coming first', () => {
    const moments = listMoments(year, seededRandom(1), NOW.getTime())
    const newest = new Map<Casualty, number>()
    for (const { facts, marks } of moments) {
      for (const { casualty, at } of [
        ...facts.map(one => ({ ...one, at: one.change.at })),
        ...marks.map(one => ({ ...one, at: one.mark.at })),
      ]) {
        const came = casualty.arrival.at
        const told = Math.max(at, came)
        expect(told).toBeGreaterThanOrEqual(newest.get(casualty) ?? came)
        newest.set(casualty, told)
      }
    }
  })
})

import { describe, expect, it } from 'vitest'
import type { CentreNow } from '#lib/plan/model.ts'
import {
  barsExamination,
  barsForGood,
  barsKeeping,
  barsOutside,
  barsPractice,
  barsTomorrow,
  barsTonight,
  isMoveInIsolation,
  movesRuledOut,
} from '#lib/plan/rule.ts'
import { centre, question, stage, TODAY } from '#tests/support/placement.ts'

const asked = question()
const changed = (changes: Partial<CentreNow>) => ({ ...centre('ash', 6), ...changes })
const SHUT = changed({ door: { kind: 'shut', opensAt: null } })
const STOPPED = changed({
  site: { kind: 'no movement', since: TODAY - 6, covers: 'birds', coversThese: true },
})

describe('rules of a centre', () => {
  it('find nothing against an open one', () => {
    for (const bars of [barsForGood, barsTomorrow, barsTonight, barsExamination]) {
      expect(bars(asked, centre('ash', 6))).toBeNull()
    }
  })

  it('shut a door tonight and for an examination, not for tomorrow or later stages', () => {
    expect(barsTonight(asked, SHUT)).toEqual({ rule: 'shut', until: null })
    expect(barsExamination(asked, SHUT)).toEqual({ rule: 'shut', until: null })
    expect(barsTomorrow(asked, SHUT)).toBeNull()
    expect(barsForGood(asked, SHUT)).toBeNull()
  })

  it('stop all movement of what a stop covers, and an examination too', () => {
    for (const bars of [barsForGood, barsTomorrow, barsTonight, barsExamination]) {
      expect(bars(asked, STOPPED)).toEqual({ rule: 'movement stop', since: TODAY - 6, covers: 'birds' })
    }
  })

  it('name the hardest one where several stand in the way', () => {
    expect(barsTonight(asked, { ...STOPPED, door: SHUT.door, isActive: false })).toEqual({ rule: 'inactive' })
    expect(barsTonight(asked, { ...STOPPED, door: SHUT.door, takesGroup: false })).toEqual({
      rule: 'takes no such group',
      group: 'Falcons',
    })
    expect(barsTonight(asked, { ...STOPPED, door: SHUT.door })?.rule).toBe('movement stop')
  })

  it('obey what a centre says of itself, as long as it says it', () => {
    const until = (day: number) => ({ day: TODAY + day, clock: '08:00' })
    const full = changed({ noMoreUntil: until(2) })
    expect(barsTonight(asked, full)).toEqual({ rule: 'no more', until: until(2) })
    expect(barsTomorrow(asked, full)).toEqual({ rule: 'no more', until: until(2) })
    expect(barsExamination(asked, full)).toEqual({ rule: 'no more', until: until(2) })
    expect(barsForGood(asked, full)).toBeNull()
    expect(barsTomorrow(asked, changed({ noMoreUntil: until(1) }))).toBeNull()
  })

  it('count the feeds that a nestling needs against the rounds a centre can do', () => {
    const nestling = { ...asked, animals: { ...asked.animals, feedsADay: 28 } }
    const can = (rounds: number) =>
      changed({ feeding: { rounds, until: { day: TODAY + 6, clock: '08:00' } } })
    expect(barsTonight(nestling, can(8))).toEqual({ rule: 'feeding rounds', can: 8, needs: 28 })
    expect(barsTomorrow(nestling, can(8))?.rule).toBe('feeding rounds')
    expect(barsTonight(nestling, can(28))).toBeNull()
    expect(barsTonight(asked, can(0))).toBeNull()
  })

  it('ask for housing of the first stage, or tonight a place that fits', () => {
    const unhoused = changed({ homes: [null, null] })
    expect(barsTomorrow(asked, unhoused)).toEqual({
      rule: 'no housing',
      stage: 'restricted activity',
      housing: 'hospital-cage',
    })
    expect(barsTonight(asked, unhoused)).toBeNull()
    expect(barsTonight(asked, { ...unhoused, freeTonight: [] })?.rule).toBe('no housing')
    expect(barsTonight(asked, changed({ freeTonight: [] }))).toBeNull()
  })

  it('close a site to high risk only for what is of high risk', () => {
    const closed = changed({ site: { kind: 'closed to high risk' } })
    expect(barsForGood(asked, closed)).toBeNull()
    const risky = { ...asked, animals: { ...asked.animals, isHighRisk: true } }
    expect(barsForGood(risky, closed)).toEqual({ rule: 'closed to high risk' })
  })

  it('need no isolation where another housing will do', () => {
    const full = changed({ site: { kind: 'isolation full' } })
    const isolated = stage('quarantine', 'isolation')
    const either = {
      ...isolated,
      needs: [...isolated.needs, ...stage('quarantine', 'hospital-cage').needs] as const,
    }
    const withFirst = (first: typeof isolated) => ({
      ...asked,
      animals: { ...asked.animals, stages: [first] },
    })
    expect(barsTonight(withFirst(isolated), full)).toEqual({ rule: 'isolation full' })
    expect(barsTonight(withFirst({ ...either, needs: [either.needs[0], either.needs[1]!] }), full)).toBeNull()
  })
})

describe('other rules', () => {
  it('let a practice see what it sees while a vet is there', () => {
    const practice = {
      id: 'p1',
      name: 'Marl Cross vets',
      phone: null,
      seesGroup: true,
      hasCoverNow: true,
      road: { km: 1, minutes: 1 },
      toCentres: {},
    }
    expect(barsPractice(asked, practice)).toBeNull()
    expect(barsPractice(asked, { ...practice, hasCoverNow: false })?.rule).toBe('no cover now')
    expect(barsPractice(asked, { ...practice, seesGroup: false })?.rule).toBe('takes no such group')
  })

  it('send nobody to a place that takes no such animals', () => {
    const place = { id: 'o1', name: 'Pinfold', phone: null, takesGroup: false, road: { km: 1, minutes: 1 } }
    expect(barsOutside(asked, place)).toEqual({ rule: 'takes no such group', group: 'Falcons' })
    expect(barsOutside(asked, { ...place, takesGroup: true })).toBeNull()
  })

  it('keep nothing till morning without a vet’s word', () => {
    expect(barsKeeping(asked)).toEqual({ rule: 'no vet agreed' })
    expect(barsKeeping({ ...asked, isCaught: false })).toEqual({ rule: 'not caught' })
  })

  it('move nothing from isolation to isolation', () => {
    const stages = [
      stage('critical care', 'isolation'),
      stage('quarantine', 'isolation'),
      stage('limited activity', 'hospital-cage'),
    ]
    const isolated = { ...asked, animals: { ...asked.animals, stages } }
    expect([1, 2].map(at => isMoveInIsolation(isolated, at))).toEqual([true, false])
    expect(movesRuledOut(isolated)).toEqual([
      { who: { kind: 'move', stage: 'critical care' }, rule: 'in isolation', next: 'quarantine' },
    ])
  })
})

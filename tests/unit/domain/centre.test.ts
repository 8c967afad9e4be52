import { describe, expect, test } from 'vitest'
import { centre, movementStop, room, standingOffer, travel } from '#lib/domain/centre.ts'

const fenmoor = {
  name: 'Fenmoor',
  about: '',
  phone: '01632 960 001',
  latitude: 54,
  longitude: -3,
  hours: [{ weekday: 1, opensMinute: 480, closesMinute: 1200 }],
  nightDoor: 'shut',
  nightName: null,
  nightPhone: null,
  takes: ['hedgehogs'],
} as const

const rules = (
  schema: { safeParse: (value: unknown) => { error?: { issues: unknown[] } | undefined } },
  value: unknown,
) =>
  (schema.safeParse(value).error?.issues ?? []).map(
    issue => (issue as { params?: { rule?: string } }).params?.rule,
  )

describe('a centre', () => {
  test('is read as it was written', () => {
    expect(centre.parse(fenmoor)).toEqual(fenmoor)
  })

  test('on call names who opens, with a number', () => {
    expect(rules(centre, { ...fenmoor, nightDoor: 'on-call' })).toEqual(['centre_on_call_names_who_opens'])
    expect(rules(centre, { ...fenmoor, nightDoor: 'on-call', nightName: 'Wren Ashby' })).toHaveLength(1)
    const named = { ...fenmoor, nightDoor: 'on-call', nightName: 'Wren Ashby', nightPhone: '01632 960 002' }
    expect(rules(centre, named)).toEqual([])
  })

  test('offers nothing less than no place', () => {
    expect([0, -1].map(places => standingOffer.safeParse({ group: 'owls', places }).success)).toEqual([
      true,
      false,
    ])
  })

  test('has rooms of known kinds', () => {
    const ward = { name: 'Ward', kind: 'ward', walkingOrder: 1, predatorsApart: true }
    expect([room.safeParse(ward).success, room.safeParse({ ...ward, kind: 'attic' }).success]).toEqual([
      true,
      false,
    ])
  })

  test('is no negative way from another', () => {
    expect([0, -1].map(km => travel.safeParse({ km, minutes: 0 }).success)).toEqual([true, false])
  })
})

test('a movement stop ends after it starts, or not yet', () => {
  const startsAt = new Date('2026-11-19T10:00:00Z')
  const stop = { siteState: 'no-movement', coversClass: 'bird', startsAt, endsAt: null, reason: 'Suspicion' }
  expect(rules(movementStop, stop)).toEqual([])
  expect(rules(movementStop, { ...stop, endsAt: startsAt })).toEqual(['movement_stop_ends_after_it_starts'])
})

import { describe, expect, test } from 'vitest'
import { driveInput, journeyInput, troubleOf } from '#lib/domain/road.ts'

const MOMENT = { zone: 'Europe/London', now: new Date('2026-06-10T11:00:00Z') }
const leg = (driver: string, pickUpAt: string, dueAt: string) => ({
  driver,
  fromWords: 'North',
  toWords: 'South',
  pickUpAt: `2026-06-10T${pickUpAt}`,
  dueAt: `2026-06-10T${dueAt}`,
})
const EMPTY = { driver: '', fromWords: '', toWords: '', pickUpAt: '', dueAt: '' }
const plan = (...legs: object[]) => journeyInput(MOMENT).safeParse({ animals: ['4'], to: 'centre:2', legs })

describe('a journey as it is planned', () => {
  test('reads its legs by the clock of the network, empty lines left out', () => {
    expect(plan(leg('7', '13:00', '14:00'), EMPTY, leg('finder', '14:00', '15:00')).data).toEqual({
      animals: [4],
      to: { kind: 'centre', id: 2 },
      carry: '',
      legs: [
        {
          driver: { kind: 'driver', id: 7 },
          fromWords: 'North',
          toWords: 'South',
          pickUpAt: new Date('2026-06-10T12:00:00Z'),
          dueAt: new Date('2026-06-10T13:00:00Z'),
        },
        {
          driver: { kind: 'finder' },
          fromWords: 'North',
          toWords: 'South',
          pickUpAt: new Date('2026-06-10T13:00:00Z'),
          dueAt: new Date('2026-06-10T14:00:00Z'),
        },
      ],
    })
  })

  test.each([
    ['without a leg', [EMPTY], 'legs.0.driver'],
    ['due before it is picked up', [leg('7', '14:00', '14:00')], 'legs.0.dueAt'],
    ['waiting alone', [leg('7', '13:00', '14:00'), leg('8', '13:59', '15:00')], 'legs.1.pickUpAt'],
    ['with nobody to drive it', [{ ...leg('7', '13:00', '14:00'), driver: '' }], 'legs.0.driver'],
  ])('is refused %s', (_, legs, field) => {
    const read = plan(...legs)
    expect(read.error?.issues.map(issue => issue.path.join('.'))).toEqual([field])
  })
})

test('what a driver says has an optional reason', () => {
  expect(driveInput.parse({ say: 'cant', reason: ' flat tyre ' })).toEqual({
    say: 'cant',
    reason: 'flat tyre',
  })
  expect(driveInput.parse({ say: 'have', reason: '' })).toEqual({ say: 'have', reason: null })
  expect(driveInput.safeParse({ say: 'lost' }).success).toBe(false)
})

describe('trouble', () => {
  const one = (
    state: 'planned' | 'on the road' | 'delivered' | 'cant' | 'called-off',
    lateAt: Date | null = null,
  ) => ({
    legNo: 1,
    state,
    lateAt,
  })

  test('is a driver who is late, on the way or not come yet', () => {
    const late = one('on the road', MOMENT.now)
    expect(troubleOf(late, [late])).toBe('late')
    expect(troubleOf(one('planned', MOMENT.now), [])).toBe('late')
    expect(troubleOf(one('on the road'), [])).toBeUndefined()
    expect(troubleOf(one('delivered', MOMENT.now), [])).toBeUndefined()
  })

  test("is one who can't until somebody else drives the same leg", () => {
    const cant = one('cant')
    expect(troubleOf(cant, [cant])).toBe('cant')
    expect(troubleOf(cant, [cant, one('called-off')])).toBe('cant')
    expect(troubleOf(cant, [cant, one('planned')])).toBeUndefined()
  })
})

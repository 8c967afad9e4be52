/**
 * Two nights in which the clock changes, each with an instant before and one after midnight, and before and after the
 * change. The changes are at one o'clock Greenwich mean time on the last Sundays of March and October (Summer Time Act
 * 1972, as amended by the Summer Time Order 2002).
 */
export type Night = {
  /** The evening that the coast is as of. */
  readonly evening: string
  readonly database: string
  readonly midnight: Turn
  readonly change: Turn
  /** Eight in the morning after. */
  readonly morning: string
  readonly morningShown: string
}
export type Turn = {
  readonly opened: string
  readonly openedShown: string
  readonly answered: string
  readonly answeredShown: string
  /** The civil day of the answer, and a day that it must not name. */
  readonly day: string
  readonly otherDay: string
  /** Twenty minutes after the call was opened. */
  readonly backShown: string
}

export const NIGHTS: readonly Night[] = [
  {
    evening: '2026-10-24',
    database: 'autumn',
    midnight: {
      opened: '2026-10-24T22:58:00Z',
      openedShown: 'Sat 24 Oct, 23:58',
      answered: '2026-10-24T23:03:00Z',
      answeredShown: 'Sun 25 Oct, 00:03',
      day: '2026-10-25',
      otherDay: 'Sat 24 Oct',
      backShown: 'Sun 25 Oct, 00:18',
    },
    // The second time that the clock shows one.
    change: {
      opened: '2026-10-25T00:58:00Z',
      openedShown: 'Sun 25 Oct, 01:58',
      answered: '2026-10-25T01:03:00Z',
      answeredShown: 'Sun 25 Oct, 01:03',
      day: '2026-10-25',
      otherDay: 'Sat 24 Oct',
      backShown: 'Sun 25 Oct, 01:18',
    },
    morning: '2026-10-25T08:00:00.000Z',
    morningShown: 'Sun 25 Oct, 08:00',
  },
  {
    evening: '2027-03-27',
    database: 'spring',
    midnight: {
      opened: '2027-03-27T23:58:00Z',
      openedShown: 'Sat 27 Mar, 23:58',
      answered: '2027-03-28T00:03:00Z',
      answeredShown: 'Sun 28 Mar, 00:03',
      day: '2027-03-28',
      otherDay: 'Sat 27 Mar',
      backShown: 'Sun 28 Mar, 00:18',
    },
    // From one the clock goes to two.
    change: {
      opened: '2027-03-28T00:58:00Z',
      openedShown: 'Sun 28 Mar, 00:58',
      answered: '2027-03-28T01:03:00Z',
      answeredShown: 'Sun 28 Mar, 02:03',
      day: '2027-03-28',
      otherDay: 'Sat 27 Mar',
      backShown: 'Sun 28 Mar, 02:18',
    },
    morning: '2027-03-28T07:00:00.000Z',
    morningShown: 'Sun 28 Mar, 08:00',
  },
]
export const TURNS = NIGHTS.flatMap(night => [
  { name: `midnight, ${night.database}`, night, turn: night.midnight },
  { name: `the clocks change, ${night.database}`, night, turn: night.change },
])

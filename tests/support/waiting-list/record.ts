/** The waiting list of tests/golden/jasa.R: its days, and what was recorded of it by the morning of a day. */
import type { DayNumber } from '#lib/domain/day.ts'
import type { RecordedStay } from '#lib/learn/stay.ts'
import golden from '../../golden/jasa.json' with { type: 'json' }

export const SERIES = ['waiting', 'operated'] as const
export type Series = (typeof SERIES)[number]

/** Day numbers; `operated` null for those who were not, `isDead` on the day last seen. */
export type Person = {
  readonly accepted: DayNumber
  readonly operated: DayNumber | null
  readonly seen: DayNumber
  readonly isDead: boolean
}

export const PEOPLE: readonly Person[] = golden.stays.map(([accepted, operated, seen, died]) => ({
  accepted: accepted!,
  operated: operated ?? null,
  seen: seen!,
  isDead: died === 1,
}))

export const FIRST_DAY = Math.min(...PEOPLE.map(({ accepted }) => accepted))
/** The study closed on the day after. */
export const LAST_DAY = Math.max(...PEOPLE.map(({ seen }) => seen)) - 1

/** How many wait, or live operated, at the midnight that ends each day from the first to the last. */
export const COUNTS: Readonly<Record<Series, readonly number[]>> = {
  waiting: countBy(({ accepted, operated, seen }) => [accepted, operated ?? seen]),
  operated: countBy(({ operated, seen }) => [operated ?? seen, seen]),
}

function countBy(span: (person: Person) => readonly [DayNumber, DayNumber]): number[] {
  return Array.from({ length: LAST_DAY - FIRST_DAY + 1 }, (_, i) => {
    const day = FIRST_DAY + i
    return PEOPLE.filter(person => span(person)[0] <= day && span(person)[1] > day).length
  })
}

/** Who had been accepted before a day, as it stood that morning: what came later is not in it. */
export function knownOn(asOf: DayNumber, people = PEOPLE): Person[] {
  return people
    .filter(({ accepted }) => accepted < asOf)
    .map(({ accepted, operated, seen, isDead }) => ({
      accepted,
      operated: operated !== null && operated < asOf ? operated : null,
      seen: Math.min(seen, asOf),
      isDead: isDead && seen < asOf,
    }))
}

/** Stays of the two stages, as learning takes them. */
export function staysOf(people: readonly Person[], asOf: DayNumber): Record<Series, RecordedStay[]> {
  const endOf = ({ seen, isDead }: Person): RecordedStay['end'] => {
    if (isDead) return { kind: 'exit', exit: 'died', on: seen }
    return seen < asOf ? { kind: 'unseen', on: seen } : null
  }
  return {
    waiting: people.map((person, i) => ({
      key: `waiting ${i}`,
      enteredOn: person.accepted,
      end: person.operated === null ? endOf(person) : { kind: 'exit', exit: 'onward', on: person.operated },
    })),
    operated: people.flatMap((person, i) =>
      person.operated === null
        ? []
        : [{ key: `operated ${i}`, enteredOn: person.operated, end: endOf(person) }],
    ),
  }
}

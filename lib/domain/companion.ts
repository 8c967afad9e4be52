/**
 * The search for a companion: a young animal that may imprint is not reared alone if one of its own kind can be had.
 * Promise: others of its species come before others of its company; whoever is suspected of a disease or under
 * quarantine is no companion; for each, moving in and moving out are told side by side, with what speaks against each.
 * (Trade S2 p.340 and p.714: never reared alone if one of its kind can be had, paired across centres if needed.)
 */
import type { Age } from './species.ts'

export type Young = {
  readonly id: number
  readonly reference: string
  readonly species: string
  readonly company: string
  readonly age: Age
  readonly isAlone: boolean
  readonly isImprintRisk: boolean
  readonly centreId: number
  readonly enclosureId: number | null
  readonly daysInCare: number
  /** Suspected of a notifiable disease, or in quarantine: shares with nobody. */
  readonly isApart: boolean
}

/** Whether it is young, may imprint, and has none of its own kind and age with it. */
export function isLone(animal: Young, others: readonly Young[]): boolean {
  if (animal.age !== 'young' || !animal.isImprintRisk || animal.isAlone) return false
  return !others.some(
    one =>
      one.id !== animal.id &&
      one.age === 'young' &&
      one.company === animal.company &&
      one.enclosureId !== null &&
      one.enclosureId === animal.enclosureId,
  )
}

export type Way = {
  readonly kind: 'in' | 'out'
  readonly hasRoom: boolean
  /** Who is moved would leave another young one alone. */
  readonly leavesOneAlone: boolean
}

export type Companion = {
  readonly animal: Young
  readonly isSameSpecies: boolean
  readonly daysApart: number
  readonly km: number
  readonly ways: readonly [Way, Way]
  /** Which way is the better one; null where neither can be done now. */
  readonly better: Way['kind'] | null
}

export type Asked = {
  readonly kmTo: (centreId: number) => number
  /** Room for the other beside the chick, and for the chick beside the other. */
  readonly hasRoomFor: (animal: Young, beside: Young) => boolean
}

/** Those that it could be put with, the nearest of its own species first. */
export function companionsOf(
  chick: Young,
  others: readonly Young[],
  { kmTo, hasRoomFor }: Asked,
): Companion[] {
  if (chick.isApart) return []
  return others
    .filter(
      one =>
        one.id !== chick.id &&
        one.age === 'young' &&
        !one.isApart &&
        !one.isAlone &&
        one.company === chick.company,
    )
    .map(animal => {
      const wayIn: Way = {
        kind: 'in',
        hasRoom: hasRoomFor(animal, chick),
        leavesOneAlone: matesOf(animal, others).length === 1,
      }
      const out: Way = { kind: 'out', hasRoom: hasRoomFor(chick, animal), leavesOneAlone: false }
      return {
        animal,
        isSameSpecies: animal.species === chick.species,
        daysApart: Math.abs(animal.daysInCare - chick.daysInCare),
        km: kmTo(animal.centreId),
        ways: [wayIn, out] as const,
        better: betterOf(wayIn, out),
      }
    })
    .sort(
      (a, b) =>
        Number(b.isSameSpecies) - Number(a.isSameSpecies) ||
        Number(b.better !== null) - Number(a.better !== null) ||
        a.km - b.km ||
        a.daysApart - b.daysApart ||
        a.animal.id - b.animal.id,
    )
}

/** Moving the chick out joins a group; moving one in is better only where that can be done and the other can't. */
function betterOf(wayIn: Way, out: Way): Way['kind'] | null {
  if (out.hasRoom) return 'out'
  return wayIn.hasRoom && !wayIn.leavesOneAlone ? 'in' : null
}

function matesOf(animal: Young, others: readonly Young[]): Young[] {
  if (animal.enclosureId === null) return []
  return others.filter(
    one => one.id !== animal.id && one.age === 'young' && one.enclosureId === animal.enclosureId,
  )
}

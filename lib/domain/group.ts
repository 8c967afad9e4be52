/**
 * Animals that are counted together: who of them a count means, and what stands against putting two groups together.
 * Promise: whoever can be told from the others is never meant by a count. Putting together changes how animals are
 * counted and kept, never where they came from.
 */
import { z } from 'zod'
import { groupBy } from '#lib/kernel/group-by.ts'
import { idInput } from './record.ts'

const TOLD_BY_MAX = 80
const blank = z.literal('').transform(() => undefined)
const someOf = z.coerce.number().int().min(1)

/** Whom it is put together with, and how many of those beside it; left out, all of them. */
export const joiningInput = z.object({
  withId: idInput,
  count: z.union([blank, someOf]).optional(),
})
/** How many become a group of their own. */
export const partingInput = z.object({ count: someOf })
/** By what one can be told from the others. */
export const tellingInput = z.object({ toldBy: z.string().trim().min(1).max(TOLD_BY_MAX) })

const places = z.array(z.coerce.number().int().min(1)).default([])
/** How many of those in this place, or which, by the numbers of their places. */
export const someInput = z
  .object({ count: z.union([blank, someOf]).optional(), places })
  .refine(some => some.count !== undefined || some.places.length > 0, {
    path: ['count'],
    params: { rule: 'missing' },
  })

export type Beside = {
  readonly id: number
  readonly reference: string
  readonly arrivalId: number
  readonly batchId: number | null
  readonly memberNo: number | null
  readonly toldBy: string | null
  readonly placeNo: number | null
  readonly species: string
  readonly company: string
  readonly isAlone: boolean
  readonly isSuspect: boolean
  readonly centreId: number | null
  readonly enclosureId: number | null
  readonly isIsolation: boolean
}

/** So many that nobody can tell apart, those with the highest numbers; nothing where there are not so many. */
export function chooseSome<T extends Pick<Beside, 'toldBy'>>(
  byNumber: readonly T[],
  count: number,
): readonly T[] | undefined {
  const alike = byNumber.filter(({ toldBy }) => toldBy === null)
  return count > alike.length ? undefined : alike.slice(alike.length - count)
}

/** The rule that forbids putting these together, the plainest first. */
export function joinRefusal(joiners: readonly Beside[], others: readonly Beside[]): string | undefined {
  const [one, other] = [joiners[0], others[0]]
  if (one === undefined || other === undefined || one.centreId === null || one.centreId !== other.centreId) {
    return 'group-elsewhere'
  }
  if (one.id === other.id || (one.batchId !== null && one.batchId === other.batchId)) return 'group-already'
  const all = [...joiners, ...others]
  if (all.some(({ species }) => species !== one.species)) return 'group-other-species'
  if (all.some(({ company }) => company !== one.company)) return 'group-other-company'
  if (all.some(({ isAlone }) => isAlone)) return 'group-alone'
  const isOneArrival = all.every(({ arrivalId }) => arrivalId === one.arrivalId)
  if (isOneArrival) return undefined
  if (all.some(({ isIsolation }) => isIsolation)) return 'group-in-isolation'
  return all.some(({ isSuspect }) => isSuspect) ? 'group-suspect' : undefined
}

/** Others that may be put together with: one of them, how many they are, and places left beside them. */
export type Joinable = {
  readonly withId: number
  readonly reference: string
  readonly animals: number
  readonly enclosureId: number | null
  /** How many of those who would go there get a place; null where all do. */
  readonly room: number | null
}

/** The groups and single ones that these may be put together with, those beside them first, then those with room for all. */
export function joinableWith(
  joiners: readonly Beside[],
  atCentre: readonly Beside[],
  roomBeside: (other: { readonly casualtyId: number; readonly company: string }) => number,
): Joinable[] {
  const alike = joiners.filter(({ toldBy }) => toldBy === null).length
  const here = joiners[0]?.enclosureId
  const groups = groupBy(atCentre, one => `${one.batchId ?? `single ${one.id}`} in ${one.enclosureId}`)
  const found = [...groups.values()].flatMap((others): Joinable[] => {
    if (joinRefusal(joiners, others) !== undefined) return []
    const [{ id: withId, reference, enclosureId, company }] = others
    const going = joiners.filter(one => one.enclosureId !== enclosureId).length
    const free = enclosureId === null || going === 0 ? going : roomBeside({ casualtyId: withId, company })
    const room = free >= going ? null : Math.min(free, alike)
    return room === 0 ? [] : [{ withId, reference, animals: others.length, enclosureId, room }]
  })
  const order = ({ enclosureId, room }: Joinable) => (enclosureId === here ? 0 : room === null ? 1 : 2)
  return found.sort((a, b) => order(a) - order(b) || (a.reference < b.reference ? -1 : 1))
}

export type Earlier = { readonly batchId: number | null; readonly memberNo: number | null }

/** Where they all came from together when they were put in, so that parting brings them back there. */
export function cameFrom(earlier: readonly (Earlier | null)[]): readonly Earlier[] | undefined {
  const [first] = earlier
  if (first == null || (first.batchId === null && earlier.length > 1)) return undefined
  const known = earlier.flatMap(one => (one?.batchId === first.batchId ? [one] : []))
  return known.length === earlier.length ? known : undefined
}

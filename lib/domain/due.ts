/**
 * What is owed: to whom it belongs, by which hour, and in which order it is shown.
 * Promise: an item belongs to its owner; without one, or when the owner is no coordinator any more, to whoever holds
 * the line, and while nobody does to every coordinator. The order is by instant, so a clock that goes back or forward
 * changes nothing; what has only a day comes at the end of that day. Nothing is dropped.
 */
import { z } from 'zod'
import { CARE_STAGES, HOUSING_TYPES } from './housing.ts'
import type { RoleName } from './person.ts'

const instant = z.coerce.date()
const call = { callId: z.int(), animal: z.string(), where: z.string() }
const animals = { references: z.array(z.string()).min(1), species: z.string() }
const asked = {
  callId: z.int().nullable(),
  reference: z.string().nullable(),
  species: z.string().nullable(),
  putAt: instant.nullable(),
}

export const GAPS = [
  'no-coordinator',
  'no-centre',
  'centre-without-enclosure',
  'centre-without-carer',
  'centre-without-hours',
  'enclosure-without-stocking',
  'practice-without-animals',
] as const
export type Gap = (typeof GAPS)[number]

export const dueAbout = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('call'), ...call, isParked: z.boolean() }),
  z.object({ kind: z.literal('call-back'), ...call, what: z.string() }),
  z.object({
    kind: z.literal('ask'),
    ...asked,
    to: z.string(),
    phone: z.string(),
    isSilent: z.boolean(),
  }),
  z.object({
    kind: z.literal('on-the-road'),
    ...animals,
    by: z.string().nullable(),
    phone: z.string().nullable(),
    since: instant,
    centre: z.string().nullable(),
    expectedAt: instant.nullable(),
    expiresAt: instant.nullable(),
  }),
  z.object({
    kind: z.literal('leg'),
    ...animals,
    journeyId: z.int(),
    trouble: z.enum(['late', 'cant']),
    by: z.string().nullable(),
    phone: z.string().nullable(),
    from: z.string(),
    to: z.string(),
    reason: z.string().nullable(),
  }),
  z.object({
    kind: z.literal('stopped-drive'),
    ...animals,
    journeyId: z.int(),
    centre: z.string(),
    leads: z.enum(['in', 'out']),
    isOnTheRoad: z.boolean(),
    by: z.string().nullable(),
    phone: z.string().nullable(),
    authority: z.string(),
    authorityPhone: z.string(),
  }),
  z.object({ kind: z.literal('transfer'), ...animals, from: z.string(), to: z.string() }),
  z.object({ kind: z.literal('hold'), ...animals, centre: z.string(), expectedAt: instant.nullable() }),
  z.object({
    kind: z.literal('line'),
    step: z.enum(['hand-over', 'accept', 'take-up']),
    holder: z.string().nullable(),
  }),
  z.object({ kind: z.literal('check'), ...animals, what: z.string(), centre: z.string() }),
  z.object({
    kind: z.literal('count'),
    centreId: z.int(),
    centre: z.string(),
    countedAt: instant.nullable(),
  }),
  z.object({ kind: z.literal('expected'), ...animals, centre: z.string() }),
  z.object({ kind: z.literal('two-versions'), ...animals, centreId: z.int(), centre: z.string() }),
  z.object({ kind: z.literal('departure'), ...animals, centre: z.string() }),
  z.object({
    kind: z.literal('still-there'),
    ...animals,
    stage: z.enum(CARE_STAGES),
    since: instant,
    centre: z.string(),
  }),
  z.object({
    kind: z.literal('licence'),
    ...animals,
    meaning: z.string(),
    on: z.string(),
    where: z.string(),
  }),
  z.object({
    kind: z.literal('overwinter'),
    ...animals,
    grams: z.number(),
    wanted: z.number(),
    centre: z.string(),
  }),
  z.object({ kind: z.literal('companion'), ...animals, since: instant, centre: z.string() }),
  z.object({ kind: z.literal('vet-ask'), ...asked, practice: z.string(), what: z.string() }),
  z.object({
    kind: z.literal('closure'),
    closureId: z.int(),
    enclosure: z.string(),
    centre: z.string(),
    reason: z.string(),
  }),
  z.object({
    kind: z.literal('tight'),
    centreId: z.int(),
    centre: z.string(),
    housing: z.enum(HOUSING_TYPES),
    days: z.int(),
    chance: z.number(),
  }),
  z.object({ kind: z.literal('review'), rules: z.int(), reviewedOn: instant }),
  z.object({
    kind: z.literal('gap'),
    gap: z.enum(GAPS),
    count: z.int(),
    names: z.array(z.string()),
  }),
])
export type DueAbout = z.infer<typeof dueAbout>
export type DueKind = DueAbout['kind']

export type DueItem = {
  /** Kind and number, the same whoever reads it. */
  readonly key: string
  readonly role: RoleName
  /** By when it is owed, or since when it waits. */
  readonly at: Date
  /** It has a day and no hour; `at` is the end of that day. */
  readonly isDay: boolean
  readonly ownerId: number | null
  readonly owner: string | null
  /** The owner is a coordinator and switched on. */
  readonly isOwnerThere: boolean
  readonly about: DueAbout
}

const dueRow = z.object({
  id: z.union([z.int(), z.string()]),
  at: instant,
  isDay: z.boolean().default(false),
  ownerId: z.int().nullable().default(null),
  owner: z.string().nullable().default(null),
  isOwnerThere: z.boolean().nullable().default(false),
  about: dueAbout,
})

/** An item as the database gives it. */
export function dueItem(role: RoleName, row: unknown): DueItem {
  const { id, isOwnerThere, ...item } = dueRow.parse(row)
  return { ...item, isOwnerThere: isOwnerThere === true, key: `${item.about.kind}:${id}`, role }
}

/** A kind's rank among those of one instant: what somebody waits for on the phone first. */
const RANK: readonly DueKind[] = [
  'line',
  'call',
  'call-back',
  'ask',
  'vet-ask',
  'stopped-drive',
  'leg',
  'on-the-road',
  'expected',
]

/** By hour, then by kind, then by number. */
export function inOrder<Item extends DueItem>(items: readonly Item[]): Item[] {
  const rank = ({ about }: Item) => {
    const found = RANK.indexOf(about.kind)
    return found === -1 ? RANK.length : found
  }
  return [...items].sort(
    (a, b) =>
      a.at.getTime() - b.at.getTime() ||
      rank(a) - rank(b) ||
      a.key.localeCompare(b.key, 'en', { numeric: true }),
  )
}

export type OnTheLine = { readonly holderId: number | null }

/** Whether an item of the desk is a coordinator's to do. */
export function isHers(item: DueItem, personId: number, { holderId }: OnTheLine): boolean {
  if (item.ownerId !== null && item.isOwnerThere) return item.ownerId === personId
  return holderId === null || holderId === personId
}

/** Whether an item goes along when the line passes from one person to the next. */
export function passesWithLine(item: DueItem, fromPersonId: number | null): boolean {
  return !(item.ownerId !== null && item.isOwnerThere) || item.ownerId === fromPersonId
}

const MS_PER_HOUR = 3_600_000
/** How long a centre's count is believed. Common practice, no source. */
export const COUNT_HOURS_MAX = 24
/** What is owed within a turn counts; the rest is ahead. Common practice, no source. */
export const DUE_HOURS = 12

/** What is owed by now or within a turn, and what comes later. What has only a day is listed once that day has come. */
export function splitDue(
  items: readonly DueItem[],
  now: Date,
): { readonly due: readonly DueItem[]; readonly later: readonly DueItem[] } {
  const until = now.getTime() + DUE_HOURS * MS_PER_HOUR
  const isDue = ({ at, isDay }: DueItem) => isDay || at.getTime() <= until
  const sorted = inOrder(items)
  return {
    due: sorted.filter(item => isDue(item)),
    later: sorted.filter(item => !isDue(item)),
  }
}

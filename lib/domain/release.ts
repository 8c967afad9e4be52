/**
 * Releases: what is said of one, what stands against planning one, how exactly its place is told.
 * Promise: a plan is barred by each thing that stands against it, one sentence each; a release that happened is a fact
 * and keeps what stood against it. The place of a sensitive species is told to a tenth of a degree to whoever does not
 * need more. Whether an animal may go is for people to decide; the law is the centre's duty.
 */
import { z } from 'zod'
import type { DayNumber } from './day.ts'
import { type GateCheck, gatesOf } from './gate.ts'
import type { Moment } from './parse.ts'
import { idInput, optionalInstant, past } from './record.ts'
import { outOfSeason, type SpeciesSeason } from './season-gate.ts'
import type { ImplantKind, ImplantState } from './surgery.ts'

export const WAITS_FOR = ['weather', 'driver', 'ring', 'permission', 'group'] as const
export type WaitsFor = (typeof WAITS_FOR)[number]

export const RELEASE_WAYS = ['hard', 'soft'] as const
export type ReleaseWay = (typeof RELEASE_WAYS)[number]

export type Bar =
  | { readonly rule: 'gate'; readonly slug: string; readonly what: string; readonly isFailed: boolean }
  | { readonly rule: 'implant'; readonly kind: ImplantKind }
  | { readonly rule: 'law'; readonly meaning: string }
  | { readonly rule: 'season'; readonly season: SpeciesSeason }
  | { readonly rule: 'vet' }

export type BarredBy = {
  readonly checks: readonly GateCheck[]
  readonly stageNo: number
  readonly implants: readonly { readonly kind: ImplantKind; readonly state: ImplantState }[]
  readonly laws: readonly { readonly key: string; readonly meaning: string }[]
  readonly seasons: readonly SpeciesSeason[]
}

/** Everything that stands against a release on a day. */
export function barsAgainst(known: BarredBy, day: DayNumber): Bar[] {
  const open = gatesOf(known.checks, known.stageNo).filter(({ state }) => state !== 'passed')
  const season = outOfSeason(known.seasons, day)
  return [
    ...known.laws.filter(({ key }) => isUnlawful(key)).map(({ meaning }): Bar => ({ rule: 'law', meaning })),
    ...known.implants
      .filter(({ state }) => state === 'in place')
      .map(({ kind }): Bar => ({ rule: 'implant', kind })),
    ...(season === undefined ? [] : [{ rule: 'season', season } as const]),
    ...open.map(
      ({ slug, what, state }): Bar =>
        slug === 'vet-word'
          ? { rule: 'vet' }
          : { rule: 'gate', slug, what, isFailed: state === 'not passed' },
    ),
  ]
}

/** A rule of the law that forbids release without a licence of its own. */
export function isUnlawful(key: string): boolean {
  return key.includes('no-release')
}

/** Kept secret where nests are robbed or setts dug; common practice, no source. By the licence rules of a species. */
const SENSITIVE = ['schedule-4-keeping', 'badger-act', 'habitats-species', 'schedule-5-tend']

export function isSensitive(licenceKeys: readonly string[]): boolean {
  return licenceKeys.some(key => SENSITIVE.some(part => key.includes(part)))
}

export type Site = {
  readonly words: string
  readonly at: { readonly latitude: number; readonly longitude: number } | null
}

const TENTH = 10

/** A site as somebody may see it: exact, or without its words and to a tenth of a degree. */
export function siteSeen(site: Site, mayKnow: boolean): Site & { readonly isCoarse: boolean } {
  if (mayKnow) return { ...site, isCoarse: false }
  const round = (degrees: number) => Math.round(degrees * TENTH) / TENTH
  const at =
    site.at === null ? null : { latitude: round(site.at.latitude), longitude: round(site.at.longitude) }
  return { words: '', at, isCoarse: true }
}

const blank = z.literal('').transform(() => undefined)
const degrees = (limit: number) =>
  z.union([
    blank,
    z
      .string()
      .transform(text => Number(text.trim().replace(',', '.')))
      .pipe(z.number().min(-limit).max(limit)),
    z.number().min(-limit).max(limit),
  ])
const words = (most: number) => z.string().trim().min(1).max(most)
const ids = z.union([z.array(idInput), idInput.transform(id => [id])])

export const releasePlanInput = (at: Moment) =>
  z
    .object({
      animals: ids.default([]),
      at: optionalInstant(at).transform(when => when ?? at.now),
      site: words(200),
      latitude: degrees(90).optional(),
      longitude: degrees(180).optional(),
      way: z.enum(RELEASE_WAYS),
      releaser: words(80),
    })
    .refine(plan => plan.animals.length > 0, { path: ['animals'], params: { rule: 'release-of-nobody' } })
    .refine(plan => (plan.latitude === undefined) === (plan.longitude === undefined), {
      path: ['longitude'],
      params: { rule: 'release_site_has_both_numbers' },
    })

export const releaseDoneInput = (at: Moment) =>
  z.object({
    releaseId: idInput,
    at: past(at),
    releaser: words(80),
    animals: z.array(
      z.object({
        casualtyId: idInput,
        went: z.enum(['yes', 'no']),
        ring: z.string().trim().max(40).default(''),
      }),
    ),
  })

export const releaseOffInput = z.object({ releaseId: idInput })

export const waitInput = z.object({
  waitsFor: z.union([z.array(z.enum(WAITS_FOR)), z.enum(WAITS_FOR).transform(one => [one])]).default([]),
})

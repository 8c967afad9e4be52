/**
 * The animals that the demonstration is about, put into enclosures that the generated history leaves free.
 * Promise: whatever the day, the small northern ward has its two cages taken by birds that have only just begun
 * their long rest, the second of them by LAST_CAGE; a fracture waits for a surgeon; one young animal is alone.
 */
import { dateOfDay, dayOfInstant, startOfDay } from '#lib/domain/day.ts'
import { speciesOf, type Trade } from '#lib/domain/trade.ts'
import { isInSeason, patientOf } from '../history/animal.ts'
import type { Arrival, Casualty, Change, StageMark } from '../history/types.ts'
import { AVERBROOK } from './averbrook.ts'
import type { CentrePlan } from './centre-types.ts'
import { centreIdOf } from './centres.ts'
import { getPlace } from './geography.ts'
import { listEnclosures } from './site.ts'
import { WITHENHOLT } from './small-centres.ts'

type Stop = { readonly daysAgo: number; readonly hour: number; readonly enclosure: string }

type Scene = {
  readonly species: string
  readonly isYoung?: boolean
  readonly condition: string
  readonly severity?: 'closed' | 'open' | 'moderate'
  readonly centre: CentrePlan
  readonly found: string
  /** One a stage, in order. */
  readonly stops: readonly [Stop, ...Stop[]]
}

/** The bird whose one stay keeps the nearest centre from being the best answer to the first call. */
export const LAST_CAGE: Scene = {
  species: 'barn-owl',
  condition: 'leg-fracture',
  severity: 'closed',
  centre: WITHENHOLT,
  found: 'Fennick straight',
  stops: [
    { daysAgo: 5, hour: 15.4, enclosure: 'Large heated unit 1' },
    { daysAgo: 3, hour: 11.25, enclosure: 'Ward cage 2' },
  ],
}

/** The bird that waits for a surgeon. */
export const FOR_THE_SURGEON: Scene = {
  species: 'buzzard',
  condition: 'humerus-fracture',
  centre: AVERBROOK,
  found: 'Quarrowby bypass',
  stops: [{ daysAgo: 1, hour: 16.7, enclosure: 'Large heated unit 1' }],
}

const IN_THE_WARD: readonly Scene[] = [
  {
    species: 'tawny-owl',
    condition: 'leg-fracture',
    severity: 'closed',
    centre: WITHENHOLT,
    found: 'Heskwith lane',
    stops: [
      { daysAgo: 8, hour: 10.3, enclosure: 'Large heated unit 1' },
      { daysAgo: 6, hour: 11, enclosure: 'Ward cage 1' },
    ],
  },
]

/** What a carer wrote of the story's animals, by what was wrong with them. */
export const NOTES: Readonly<Record<string, string>> = {
  'leg-fracture': 'Quiet, stands on both legs for a moment at a time. Towel over the front of the cage.',
  'humerus-fracture': 'Wing strapped, eats by itself. The vet has been told; who operates is not settled.',
  'orphan-young': 'Took three meals in a row. Handled only by the one who feeds it.',
}

/** Young that imprint, each in its months; an otter cub can come in any. */
const ALONE: readonly (readonly [species: string, enclosure: string])[] = [
  ['tawny-owl', 'Large heated unit 2'],
  ['feral-pigeon', 'Large heated unit 2'],
  ['otter', 'Pen 1'],
]

/** The story's animals as of an instant, numbered from the next free numbers. */
export function storyCasualties(
  trade: Trade,
  now: Date,
  zone: string,
  free: { readonly id: number },
): Casualty[] {
  const today = dayOfInstant(now, zone)
  const month = Number(dateOfDay(today).slice(5, 7))
  const scenes = [...IN_THE_WARD, LAST_CAGE, FOR_THE_SURGEON, aloneScene(trade, month)]
  return scenes.map((scene, at) => {
    const id = free.id + at
    const instant = ({ daysAgo, hour }: Stop) =>
      startOfDay(today - daysAgo, zone).getTime() + Math.round(hour * 60) * 60_000
    const place = getPlace(scene.found)
    const arrival: Arrival = {
      id,
      at: instant(scene.stops[0]),
      centreId: centreIdOf(scene.centre),
      spot: place.spot,
      foundWords: place.name,
    }
    const patient = patientOf(trade, speciesOf(trade, scene.species), scene.isYoung ?? false, month, () => ({
      condition: scene.condition,
      severity: scene.severity,
      isUsuallyOperated: true,
    }))
    return {
      id,
      arrival,
      batchNo: null,
      memberNo: null,
      isStory: true,
      ...patient,
      ...travelled(scene, instant),
    }
  })
}

function travelled(
  scene: Scene,
  instant: (stop: Stop) => number,
): { readonly changes: Change[]; readonly marks: StageMark[] } {
  const centreId = centreIdOf(scene.centre)
  const [first] = scene.stops
  const changes: Change[] = [{ at: instant(first) - 50 * 60_000, keeper: 'finder' }]
  const marks: StageMark[] = []
  scene.stops.forEach((stop, at) => {
    if (at > 0) marks.push({ no: at, kind: 'ready', at: instant(stop) - 30 * 60_000 })
    changes.push({
      at: instant(stop),
      keeper: 'centre',
      centreId,
      enclosureId: idOf(centreId, stop.enclosure),
      placeNo: 1,
    })
    marks.push({ no: at + 1, kind: 'began', at: instant(stop) })
  })
  return { changes, marks }
}

function aloneScene(trade: Trade, month: number): Scene {
  const [species, enclosure] =
    ALONE.find(([slug]) => {
      const { young_from_month: from, young_to_month: to } = speciesOf(trade, slug)
      return from !== null && to !== null && isInSeason(month, [from, to])
    }) ?? (['otter', 'Pen 1'] as const)
  return {
    species,
    isYoung: true,
    condition: 'orphan-young',
    centre: AVERBROOK,
    found: 'Brindlecote',
    stops: [{ daysAgo: 1, hour: 9.6, enclosure }],
  }
}

function idOf(centreId: number, name: string): number {
  const found = listEnclosures().find(one => one.centre_id === centreId && one.name === name)
  if (found === undefined || !found.isForStory)
    throw new RangeError(`enclosure needs one kept for the story, got ${name}`)
  return found.id
}

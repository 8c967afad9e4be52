/** The shape of a centre in the scenario: what the tables need, in the words that a person would use for it. */
import type { HousingType } from '#lib/domain/housing.ts'
import type { Spot } from './geography.ts'

export type EnclosurePlan = {
  /** Printed name without its number: "Cage" gives "Cage 1", "Cage 2". */
  readonly called: string
  readonly count: number
  readonly type: HousingType
  readonly sizeRank: number
  /** Width, length, height in metres; the length of an aviary is the flight. */
  readonly metres: readonly [width: number, length: number, height: number]
  readonly features?: readonly string[]
  readonly turnaroundMin?: number
  readonly driesAfter?: 'each' | 'company'
  /** The first so many, from 1, that only the story may use (story.ts). */
  readonly storyCount?: number
}

export type RoomPlan = {
  readonly name: string
  readonly kind: 'ward' | 'isolation' | 'outdoors'
  readonly predatorsApart?: boolean
  readonly enclosures: readonly EnclosurePlan[]
}

export type CentrePlan = {
  readonly name: string
  readonly about: string
  readonly phone: string
  readonly spot: Spot
  readonly nightDoor: 'staffed' | 'on-call' | 'shut'
  readonly night?: { readonly name: string; readonly phone: string }
  /** Minutes of the day, the same on all weekdays, or with another pair for Saturday and Sunday. */
  readonly hours: readonly [opens: number, closes: number]
  readonly weekend: readonly [opens: number, closes: number] | undefined
  readonly takes: readonly string[]
  /** Places that the desk may fill without asking, by group; what is not named must be asked for. */
  readonly offers: Readonly<Record<string, number>>
  /** Animals a year that this centre says it gets, by group. */
  readonly yearly: Readonly<Record<string, number>>
  readonly rooms: readonly RoomPlan[]
}

/** A cage of the common sizes: 0.5 to 1 m, ordered by whom it can hold. */
export function cages(
  called: string,
  count: number,
  sizeRank: 2 | 3 | 5 | 6,
  extra: Partial<EnclosurePlan> = {},
): EnclosurePlan {
  const metres = (
    { 2: [0.5, 0.45, 0.45], 3: [0.6, 0.6, 0.6], 5: [0.9, 0.7, 0.7], 6: [1.2, 0.8, 0.9] } as const
  )[sizeRank]
  return {
    called,
    count,
    type: 'hospital-cage',
    sizeRank,
    metres,
    turnaroundMin: 30,
    driesAfter: 'each',
    ...extra,
  }
}

/** Heated units. */
export function heated(
  called: string,
  count: number,
  sizeRank: 3 | 6,
  extra: Partial<EnclosurePlan> = {},
): EnclosurePlan {
  const metres = sizeRank === 3 ? ([0.5, 0.4, 0.4] as const) : ([0.9, 0.6, 0.6] as const)
  return {
    called,
    count,
    type: 'intensive-care',
    sizeRank,
    metres,
    features: ['heated', 'oxygen'],
    turnaroundMin: 30,
    driesAfter: 'each',
    ...extra,
  }
}

/** Isolation cages behind their own door. */
export function isolation(called: string, count: number, sizeRank: 5 | 6 | 8): EnclosurePlan {
  const metres = ({ 5: [0.9, 0.7, 0.7], 6: [1.2, 1, 1], 8: [2.4, 2, 2] } as const)[sizeRank]
  return {
    called,
    count,
    type: 'isolation',
    sizeRank,
    metres,
    features: ['own air', 'own drain'],
    turnaroundMin: 24 * 60,
    driesAfter: 'company',
  }
}

/** Floor pens indoors. */
export function indoorPens(
  called: string,
  count: number,
  sizeRank: 5 | 7 | 8,
  extra: Partial<EnclosurePlan> = {},
): EnclosurePlan {
  const metres = ({ 5: [1.2, 1.2, 1], 7: [2, 2, 2.2], 8: [2, 2.6, 2.4] } as const)[sizeRank]
  return {
    called,
    count,
    type: 'indoor-pen',
    sizeRank,
    metres,
    features: ['heat lamp'],
    turnaroundMin: 120,
    ...extra,
  }
}

/** Aviaries: sheltered ones are roofed, flights are netted; both ordered by their length. */
export function aviary(
  called: string,
  count: number,
  type: 'sheltered-aviary' | 'flight-aviary',
  metres: readonly [number, number, number],
  extra: Partial<EnclosurePlan> = {},
): EnclosurePlan {
  const features = type === 'flight-aviary' ? ['soft netting', 'double door'] : ['roofed', 'double door']
  return { called, count, type, sizeRank: 7, metres, features, turnaroundMin: 240, ...extra }
}

/** Pens with water. */
export function poolPens(
  called: string,
  count: number,
  sizeRank: 6 | 7 | 8,
  extra: Partial<EnclosurePlan> = {},
): EnclosurePlan {
  const metres = ({ 6: [2.5, 3, 2.2], 7: [3, 4, 2.4], 8: [4, 6, 2.4] } as const)[sizeRank]
  return {
    called,
    count,
    type: 'pool-pen',
    sizeRank,
    metres,
    features: ['pool', 'overflow'],
    turnaroundMin: 360,
    ...extra,
  }
}

/** Pens outdoors. */
export function outdoorPens(called: string, count: number, sizeRank: 6 | 7 | 9): EnclosurePlan {
  const metres = ({ 6: [3, 4, 2], 7: [4, 6, 2.2], 9: [8, 14, 2.4] } as const)[sizeRank]
  return { called, count, type: 'outdoor-pen', sizeRank, metres, features: ['shelter'], turnaroundMin: 240 }
}

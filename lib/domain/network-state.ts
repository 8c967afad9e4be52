/**
 * The network at one moment, as placement and forecast read it: centres and their doors, enclosures, claims on
 * places, animals in care with their plans, usual arrivals, practices and places outside.
 * Promise: one value of one revision; the schemas here are the only way in. Ids are whole numbers, instants are Dates.
 */
import { z } from 'zod'
import { stageEstimate } from './estimate.ts'
import { HOUSING_TYPES } from './housing.ts'

// Not coerced as it comes: a missing instant (null) would read as the first of January 1970.
const instant = z.union([z.date(), z.string()]).pipe(z.coerce.date())
const housing = z.enum(HOUSING_TYPES)
const hours = z.array(z.object({ weekday: z.int(), opensMinute: z.int(), closesMinute: z.int() }))
const point = { latitude: z.number(), longitude: z.number() }

const movementStopState = z.object({
  siteState: z.enum(['closed-to-high-risk', 'isolation-full', 'no-movement']),
  coversClass: z.enum(['bird', 'mammal']).nullable(),
  startsAt: instant,
  endsAt: instant.nullable(),
  reason: z.string(),
})

const centreState = z.object({
  id: z.int(),
  name: z.string(),
  about: z.string(),
  phone: z.string(),
  ...point,
  nightDoor: z.enum(['staffed', 'on-call', 'shut']),
  nightName: z.string().nullable(),
  nightPhone: z.string().nullable(),
  countedAt: instant.nullable(),
  hours,
  takes: z.array(z.string()),
  offers: z.array(z.object({ group: z.string(), places: z.int() })),
  stop: movementStopState.nullable(),
  /** Said by the centre: it takes no more until then. */
  noMoreUntil: instant.nullable().default(null),
  /** Said by the centre: so many feeding rounds a day, until then. */
  feeding: z.object({ rounds: z.int(), until: instant }).nullable().default(null),
})

const enclosureState = z.object({
  id: z.int(),
  centreId: z.int(),
  roomId: z.int(),
  roomName: z.string(),
  predatorsApart: z.boolean(),
  name: z.string(),
  housing,
  sizeRank: z.int(),
  lengthM: z.number(),
  features: z.array(z.string()),
  turnaroundMin: z.int(),
  stocking: z.record(z.string(), z.int()),
})

const claimState = z.object({
  id: z.int(),
  kind: z.enum(['stay', 'hold', 'closure', 'drying']),
  enclosureId: z.int(),
  placeNo: z.int().nullable(),
  companyKey: z.string(),
  roomApartId: z.int().nullable(),
  preys: z.enum(['predator', 'prey']).nullable(),
  casualtyId: z.int().nullable(),
  startsAt: instant,
  endsAt: instant.nullable(),
  expectedAt: instant.nullable(),
  expiresAt: instant.nullable(),
})

const plannedStage = z.object({
  no: z.int(),
  stage: stageEstimate.shape.stage,
  housing,
  housingAlso: z.array(housing),
  features: z.array(z.string()),
  /** Where the stage is expected to be spent; null: where the animal is. */
  centreId: z.int().nullable(),
  estimate: stageEstimate,
})

const stageFact = z.object({ no: z.int(), at: instant })

const residentState = z.object({
  id: z.int(),
  reference: z.string(),
  species: z.string(),
  age: z.enum(['adult', 'young', 'unknown']),
  company: z.string(),
  isAlone: z.boolean(),
  arrivalId: z.int(),
  keeper: z.enum(['finder', 'driver', 'practice', 'centre']),
  centreId: z.int().nullable(),
  enclosureId: z.int().nullable(),
  since: instant,
  stages: z.array(plannedStage),
  began: stageFact.nullable(),
  ready: stageFact.nullable(),
  /** The care plans that its own copy was made of, and when it was admitted. */
  planIds: z.array(z.string()).default([]),
  admittedAt: instant.nullable().default(null),
  /** The newest word of a vet that counts for the stage it is in: about so many days longer, from then on. */
  word: z.object({ no: z.int(), at: instant, inDays: z.number() }).nullable().default(null),
})

const policyState = z.object({
  preset: z.enum(['fewer-moves', 'balanced', 'proper-place-first']),
  kappa: z.number(),
  omega: z.number(),
  transfer_place_days: z.number(),
  km_per_place_day: z.number(),
  refusal_place_days: z.number(),
  redirect_place_days: z.number(),
  keep_advice_place_days: z.number(),
  keep_tomorrow_place_days: z.number(),
  keep_today_place_days: z.number(),
  tight_chance: z.number(),
  hold_minutes: z.int(),
  ask_lapse_minutes: z.int(),
  finder_days: z.int(),
  version: z.int(),
})

export const networkState = z.object({
  revision: z.int(),
  knowledgeRevision: z.int(),
  housingRevision: z.int(),
  name: z.string(),
  zone: z.string(),
  linePhone: z.string(),
  authorityName: z.string(),
  authorityPhone: z.string(),
  policy: policyState,
  centres: z.array(centreState),
  travel: z.array(z.object({ from: z.int(), to: z.int(), km: z.number(), minutes: z.number() })),
  enclosures: z.array(enclosureState),
  closures: z.array(
    z.object({ enclosureId: z.int(), startsAt: instant, endsAt: instant.nullable(), reason: z.string() }),
  ),
  claims: z.array(claimState),
  residents: z.array(residentState),
  arrivals: z.array(
    z.object({
      centreId: z.int(),
      group: z.string(),
      animalsPerYear: z.number(),
      monthShares: z.array(z.number()),
      eventSizes: z.array(z.number()),
    }),
  ),
  practices: z.array(
    z.object({
      id: z.int(),
      name: z.string(),
      phone: z.string(),
      ...point,
      hasNightCover: z.boolean(),
      nightPhone: z.string().nullable(),
      note: z.string(),
      hours,
      sees: z.array(z.string()),
    }),
  ),
  outsidePlaces: z.array(
    z.object({
      id: z.int(),
      name: z.string(),
      phone: z.string(),
      takesWords: z.string(),
      hoursWords: z.string(),
      ...point,
      takes: z.array(z.string()),
    }),
  ),
})

/** What moves with every fact: the network without its housing. */
export const networkTonight = networkState.omit({ enclosures: true })

/** What only setup moves: the enclosures in use, with their stocking. */
export const housingState = z.object({ revision: z.int(), enclosures: networkState.shape.enclosures })

export type NetworkTonight = z.infer<typeof networkTonight>
export type HousingState = z.infer<typeof housingState>
export type NetworkState = z.infer<typeof networkState>
export type CentreState = NetworkState['centres'][number]
export type EnclosureState = NetworkState['enclosures'][number]
export type ClaimState = NetworkState['claims'][number]
export type ResidentState = NetworkState['residents'][number]
export type PlannedStage = ResidentState['stages'][number]

/**
 * A small invented network for tests: two centres, a few enclosures, one blackbird in care, one row of usual arrivals.
 * Each builder takes what a test says and fills in the usual.
 */
import { startOfDay } from '#lib/domain/day.ts'
import type {
  CentreState,
  ClaimState,
  EnclosureState,
  NetworkState,
  PlannedStage,
  ResidentState,
} from '#lib/domain/network-state.ts'
import { estimate, TODAY } from './forecasting.ts'

export const ZONE = 'Europe/London'
export const SHORE = 1
export const HILL = 2
export const GROUP = 'thrushes-starlings'

/** An instant of a day counted from today, on the network's wall clock; winter days only, 24 hours long. */
export function at(day: number, hour: number, minute = 0): Date {
  return new Date(startOfDay(TODAY + day, ZONE).getTime() + (hour * 60 + minute) * 60_000)
}

export function centreState(id: number, change: Partial<CentreState> = {}): CentreState {
  return {
    id,
    name: `Centre ${id}`,
    about: '',
    phone: `01632 96000${id}`,
    latitude: 52 + id / 10,
    longitude: 1,
    nightDoor: 'shut',
    nightName: null,
    nightPhone: null,
    countedAt: at(0, 7),
    hours: [1, 2, 3, 4, 5, 6, 7].map(weekday => ({ weekday, opensMinute: 480, closesMinute: 1080 })),
    takes: [GROUP],
    offers: [],
    stop: null,
    noMoreUntil: null,
    feeding: null,
    ...change,
  }
}

export function enclosureState(
  id: number,
  centreId: number,
  housing: EnclosureState['housing'],
  change: Partial<EnclosureState> = {},
): EnclosureState {
  return {
    id,
    centreId,
    roomId: centreId * 10,
    roomName: 'Ward',
    predatorsApart: false,
    name: `Enclosure ${id}`,
    housing,
    sizeRank: 3,
    lengthM: 0,
    features: [],
    turnaroundMin: 0,
    stocking: { thrushes: 3 },
    ...change,
  }
}

export function plannedStage(
  no: number,
  stage: PlannedStage['stage'],
  housing: PlannedStage['housing'],
  change: Partial<PlannedStage> = {},
): PlannedStage {
  return {
    no,
    stage,
    housing,
    housingAlso: [],
    features: [],
    centreId: null,
    estimate: estimate({ stage }),
    ...change,
  }
}

/** An adult blackbird in a hospital cage by the shore, three days into its first stage. */
export function residentState(id: number, change: Partial<ResidentState> = {}): ResidentState {
  return {
    id,
    reference: `heron-${id}`,
    species: 'blackbird',
    age: 'adult',
    company: 'thrushes',
    isAlone: false,
    arrivalId: id,
    keeper: 'centre',
    centreId: SHORE,
    enclosureId: 11,
    since: at(-3, 12),
    stages: [
      plannedStage(1, 'restricted activity', 'hospital-cage'),
      plannedStage(2, 'limited activity', 'sheltered-aviary'),
    ],
    began: { no: 1, at: at(-3, 12) },
    ready: null,
    planIds: [],
    admittedAt: at(-3, 11),
    word: null,
    ...change,
  }
}

/** A place kept for an animal that is on its way. */
export function holdFor(
  casualtyId: number,
  enclosureId: number,
  change: Partial<ClaimState> = {},
): ClaimState {
  return {
    id: casualtyId,
    kind: 'hold',
    enclosureId,
    placeNo: 1,
    companyKey: 'thrushes',
    roomApartId: null,
    preys: 'prey',
    casualtyId,
    startsAt: at(0, 8),
    endsAt: null,
    expectedAt: at(0, 12),
    expiresAt: at(0, 16),
    ...change,
  }
}

export function networkState(change: Partial<NetworkState> = {}): NetworkState {
  return {
    revision: 1,
    knowledgeRevision: 1,
    housingRevision: 1,
    name: 'An invented coast',
    zone: ZONE,
    linePhone: '01632 960000',
    authorityName: 'The authority',
    authorityPhone: '01632 960009',
    policy: POLICY,
    centres: [centreState(SHORE), centreState(HILL)],
    travel: [],
    enclosures: [
      enclosureState(12, SHORE, 'hospital-cage', { sizeRank: 5 }),
      enclosureState(11, SHORE, 'hospital-cage'),
      enclosureState(13, SHORE, 'intensive-care'),
      enclosureState(21, HILL, 'hospital-cage'),
      enclosureState(22, HILL, 'intensive-care'),
      enclosureState(23, HILL, 'sheltered-aviary', { lengthM: 6 }),
      enclosureState(24, HILL, 'flight-aviary', { lengthM: 12 }),
    ],
    closures: [],
    claims: [],
    residents: [residentState(7)],
    arrivals: [
      {
        centreId: SHORE,
        group: GROUP,
        animalsPerYear: 60,
        monthShares: [0.02, 0.02, 0.06, 0.12, 0.22, 0.2, 0.14, 0.08, 0.04, 0.04, 0.03, 0.03],
        eventSizes: [2, 1, 1],
      },
    ],
    practices: [],
    outsidePlaces: [],
    ...change,
  }
}

const POLICY: NetworkState['policy'] = {
  preset: 'balanced',
  kappa: 0.4,
  omega: 4,
  transfer_place_days: 2,
  km_per_place_day: 40,
  refusal_place_days: 20,
  redirect_place_days: 5,
  keep_advice_place_days: 0.25,
  keep_tomorrow_place_days: 0.5,
  keep_today_place_days: 3,
  tight_chance: 0.2,
  hold_minutes: 240,
  ask_lapse_minutes: 60,
  finder_days: 90,
  version: 1,
}

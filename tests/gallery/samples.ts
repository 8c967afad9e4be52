/**
 * Invented stays, fans and rooms for the gallery: one of each shape that the pictures must survive.
 */

import type { FanData } from '#app/_ui/fan/fan-data.ts'
import type { EndQuantiles, RibbonData } from '#app/_ui/ribbon/ribbon-data.ts'
import { dayOfDate } from '#lib/domain/day.ts'

export const TODAY = dayOfDate('2026-11-25')

export function ends(q10: number, q25: number, median: number, q75: number, q90: number): EndQuantiles {
  return { q10: TODAY + q10, q25: TODAY + q25, median: TODAY + median, q75: TODAY + q75, q90: TODAY + q90 }
}

const bump = (peak: number, at: number, spread: number) =>
  Array.from({ length: 100 }, (_, day) => peak * Math.exp(-(((day - at) / spread) ** 2)))

export const TWO_CENTRES: RibbonData = {
  startDay: TODAY,
  todayDay: TODAY,
  stages: [
    { stage: 'critical care', end: ends(1, 2, 2, 3, 4), chance: 0.996, centre: 'Hollin Ness' },
    { stage: 'restricted activity', end: ends(24, 28, 33, 38, 43), chance: 0.97, centre: 'Hollin Ness' },
    { stage: 'limited activity', end: ends(37, 41, 47, 53, 60), chance: 0.93, centre: 'Hollin Ness' },
    {
      stage: 'unlimited activity',
      end: ends(54, 60, 68, 77, 84),
      chance: 0.79,
      centre: 'Long Dune',
      kmOn: 64,
    },
  ],
  groundByDay: bump(0.3, 57, 14),
  checks: [
    { day: TODAY + 11, kind: 'planned', text: 'radiograph' },
    { day: TODAY + 22, kind: 'planned', text: 'radiograph' },
    { day: TODAY + 32, kind: 'planned', text: 'fixator off' },
  ],
}

export const WEAK: RibbonData = {
  ...TWO_CENTRES,
  stages: TWO_CENTRES.stages.map((stage, i) => ({
    ...stage,
    centre: 'Hollin Ness',
    kmOn: undefined,
    chance: i === 3 ? 0.27 : (stage.chance ?? 1),
  })),
  groundByDay: bump(0.76, 60, 18),
}

/** Six stages and a quarantine: more labels than a phone can hold. */
export const LONG: RibbonData = {
  startDay: TODAY,
  todayDay: TODAY,
  stages: [
    { stage: 'quarantine', end: ends(10, 14, 14, 14, 15), chance: 0.99, centre: 'Withy Mead' },
    { stage: 'critical care', end: ends(15, 16, 17, 19, 22), chance: 0.52, centre: 'Withy Mead' },
    { stage: 'restricted activity', end: ends(20, 22, 26, 36, 40), chance: 0.97, centre: 'Withy Mead' },
    { stage: 'limited activity', end: ends(26, 28, 33, 44, 52), chance: 0.9, centre: 'Tollgate', kmOn: 12 },
    { stage: 'overwintering', end: ends(90, 100, 112, 122, 130), chance: 0.81, centre: 'Tollgate' },
    {
      stage: 'unlimited activity',
      end: ends(100, 112, 124, 138, 150),
      chance: 0.79,
      centre: 'Brackwater Estuary',
      kmOn: 101,
    },
  ],
  groundByDay: Array.from({ length: 160 }, (_, day) => (day > 20 && day < 40 ? 0.48 : 0.02)),
  checks: [],
}

const past = (day: number): EndQuantiles => ends(day, day, day, day, day)

export const IN_CARE: RibbonData = {
  startDay: TODAY - 19,
  todayDay: TODAY,
  stages: [
    { stage: 'critical care', end: past(-16), centre: 'Hollin Ness', place: 'cage 8 in the ward' },
    {
      stage: 'restricted activity',
      end: ends(10, 12, 17, 22, 27),
      chance: 0.99,
      centre: 'Hollin Ness',
      place: 'cage 8 in the ward',
    },
    { stage: 'limited activity', end: ends(21, 26, 31, 37, 40), chance: 0.92, centre: 'Hollin Ness' },
    {
      stage: 'unlimited activity',
      end: ends(39, 45, 52, 60, 68),
      chance: 0.85,
      centre: 'Long Dune',
      place: 'flight aviary, place held',
      kmOn: 64,
    },
  ],
  groundByDay: bump(0.18, 50, 10),
  checks: [
    { day: TODAY - 16, kind: 'done', text: 'pin and fixator' },
    { day: TODAY - 6, kind: 'done', text: 'radiograph, callus seen' },
    { day: TODAY - 1, kind: 'late', text: 'weigh' },
    { day: TODAY + 1, kind: 'due', text: 'radiograph' },
    { day: TODAY + 12, kind: 'planned', text: 'radiograph' },
    { day: TODAY + 17, kind: 'planned', text: 'fixator off, pin out' },
    { day: TODAY + 50, kind: 'planned', text: 'flight test' },
  ],
}

const wave = (day: number) => 10 + 2 * Math.sin(day / 9) + 3 * Math.exp(-(((day - 54) / 9) ** 2)) - day / 60
const width = (day: number) => 0.3 + 2.4 * (1 - Math.exp(-day / 12))

/** How likely it is short: a smooth stand-in, highest while the flight is shut. */
export const SHORT = Array.from({ length: 84 }, (_, day) => {
  const places = day >= 40 && day < 57 ? 12 : 14
  return 1 / (1 + Math.exp((1.9 * (places - wave(day) + 0.6)) / width(day)))
})

export const FLIGHTS: FanData = {
  todayDay: TODAY,
  past: [
    9, 10, 11, 11, 12, 12, 11, 11, 11, 11, 11, 12, 12, 11, 11, 12, 12, 12, 11, 11, 12, 12, 12, 11, 11, 12, 11,
    11,
  ],
  ahead: SHORT.map((_, day) => ({
    q10: Math.max(0, wave(day) - 1.28 * width(day)),
    q25: Math.max(0, wave(day) - 0.67 * width(day)),
    median: wave(day),
    q75: wave(day) + 0.67 * width(day),
    q90: wave(day) + 1.28 * width(day),
  })),
  capacity: [
    { fromDay: TODAY - 100, places: 14 },
    { fromDay: TODAY + 40, places: 12, reason: 'north flight re-netted' },
    { fromDay: TODAY + 57, places: 14, reason: 'north flight back' },
  ],
  shortByDay: SHORT,
  noun: 'animals',
}

/** Two hundred animals, never short. */
export const ROOMY: FanData = {
  ...FLIGHTS,
  past: [],
  ahead: FLIGHTS.ahead.map(({ q10, q25, median, q75, q90 }) => ({
    q10: q10 + 150,
    q25: q25 + 150,
    median: median + 150,
    q75: q75 + 150,
    q90: q90 + 150,
  })),
  capacity: [{ fromDay: TODAY, places: 200 }],
  shortByDay: FLIGHTS.shortByDay.map(() => 0),
}

/** Nobody in and nothing expected, one place. */
export const BARE: FanData = {
  ...ROOMY,
  past: [0, 0, 0],
  ahead: FLIGHTS.ahead.slice(0, 14).map(() => ({ q10: 0, q25: 0, median: 0, q75: 0, q90: 1 })),
  capacity: [{ fromDay: TODAY, places: 1 }],
  shortByDay: FLIGHTS.shortByDay.slice(0, 14).map(() => 0.02),
}

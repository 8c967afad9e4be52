/** The centre without an aviary, the small ward in the north that the first call is about, and one person's pens. */
import { aviary, type CentrePlan, cages, heated, indoorPens, isolation, outdoorPens } from './centre-types.ts'
import { GARDEN_BIRDS, LARGE_LAND_BIRDS, RAPTORS, SMALL_MAMMALS, STAND_IN_BIRDS, STAND_IN_MAMMALS } from './groups.ts'

export const TAMSEL: CentrePlan = {
  name: 'Tamsel House',
  about: 'Hedgehogs and garden birds in an old farmhouse; no aviary.',
  phone: '01632 960111',
  spot: [-32, 14],
  nightDoor: 'shut',
  hours: [8 * 60, 20 * 60],
  weekend: [9 * 60, 18 * 60],
  takes: [...GARDEN_BIRDS, ...LARGE_LAND_BIRDS, ...RAPTORS, ...SMALL_MAMMALS, 'foxes', 'ducks', ...STAND_IN_BIRDS, ...STAND_IN_MAMMALS],
  offers: {
    'small-songbirds': 6,
    'thrushes-starlings': 5,
    'pigeons-doves': 5,
    corvids: 2,
    hedgehogs: 12,
    bats: 4,
    'rabbits-hares': 2,
    falcons: 1,
    owls: 1,
  },
  yearly: {
    'small-songbirds': 95,
    'thrushes-starlings': 80,
    'pigeons-doves': 75,
    corvids: 30,
    ducks: 20,
    hawks: 4,
    falcons: 4,
    owls: 6,
    hedgehogs: 190,
    bats: 45,
    'rabbits-hares': 24,
    squirrels: 10,
    foxes: 8,
    mustelids: 3,
  },
  rooms: [
    { name: 'Kitchen ward', kind: 'ward', enclosures: [heated('Heated unit', 8, 3), heated('Large heated unit', 4, 5)] },
    { name: 'Bird parlour', kind: 'ward', enclosures: [cages('Small cage', 10, 2), cages('Cage', 8, 5)] },
    {
      name: 'Hedgehog hall',
      kind: 'ward',
      enclosures: [cages('Hutch', 18, 5), indoorPens('Pen', 14, 5), indoorPens('Large pen', 2, 7)],
    },
    { name: 'Scullery', kind: 'isolation', enclosures: [isolation('Isolation', 4, 5)] },
    { name: 'Orchard', kind: 'outdoors', enclosures: [outdoorPens('Run', 14, 6), outdoorPens('Large run', 2, 7)] },
  ],
}

export const WITHENHOLT: CentrePlan = {
  name: 'Withenholt Bird Ward',
  about: 'A small ward for garden birds and birds of prey, run by a family and six volunteers.',
  phone: '01632 960141',
  spot: [-4, 45],
  nightDoor: 'on-call',
  night: { name: 'Sunniva Thackwell', phone: '07700 900141' },
  hours: [8 * 60, 19 * 60],
  weekend: [9 * 60, 17 * 60],
  takes: ['small-songbirds', 'thrushes-starlings', 'swallows', 'swifts', 'hawks', 'falcons', 'owls', 'unknown-birds'],
  offers: { 'small-songbirds': 6, 'thrushes-starlings': 6, swallows: 3, swifts: 2, hawks: 1, falcons: 2, owls: 2 },
  yearly: { 'small-songbirds': 80, 'thrushes-starlings': 65, swallows: 12, swifts: 10, hawks: 1, falcons: 2, owls: 3 },
  rooms: [
    { name: 'Warm room', kind: 'ward', enclosures: [heated('Heated unit', 6, 3, { storyCount: 2 })] },
    { name: 'Nursery', kind: 'ward', predatorsApart: true, enclosures: [cages('Small cage', 8, 2)] },
    { name: 'Ward', kind: 'ward', predatorsApart: true, enclosures: [cages('Ward cage', 3, 5, { storyCount: 3 })] },
    { name: 'Lean-to', kind: 'isolation', enclosures: [isolation('Isolation', 1, 5)] },
    {
      name: 'Walled garden',
      kind: 'outdoors',
      enclosures: [
        aviary('Covered aviary', 4, 'sheltered-aviary', [2.4, 5, 2.4], { storyCount: 1 }),
        aviary('Garden flight', 5, 'flight-aviary', [2.4, 5, 2.4], { storyCount: 1 }),
      ],
    },
  ],
}

export const LANTERNHAY: CentrePlan = {
  name: 'Lanternhay',
  about: 'One person and four pens.',
  phone: '01632 960151',
  spot: [-20, 36],
  nightDoor: 'shut',
  hours: [9 * 60, 19 * 60],
  weekend: undefined,
  takes: ['hedgehogs', 'rabbits-hares', 'squirrels'],
  offers: { hedgehogs: 1 },
  yearly: { hedgehogs: 24, 'rabbits-hares': 4, squirrels: 3 },
  rooms: [
    { name: 'Back kitchen', kind: 'ward', enclosures: [heated('Warm box', 1, 5), cages('Hutch', 1, 5)] },
    { name: 'Garden', kind: 'outdoors', enclosures: [indoorPens('Shed pen', 1, 5), outdoorPens('Run', 1, 6)] },
  ],
}

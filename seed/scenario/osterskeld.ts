/** Seals and seabirds in the north; today under a movement stop for birds. */
import {
  aviary,
  type CentrePlan,
  cages,
  heated,
  indoorPens,
  isolation,
  outdoorPens,
  poolPens,
} from './centre-types.ts'
import { GULLS, SEABIRDS, WATER_BIRDS } from './groups.ts'

export const OSTERSKELD: CentrePlan = {
  name: 'Osterskeld Seal and Seabird Unit',
  about: 'Pools with clean sea water for seals and seabirds.',
  phone: '01632 960131',
  spot: [13, 68],
  nightDoor: 'on-call',
  night: { name: 'Yrsa Colbrand', phone: '07700 900131' },
  hours: [8 * 60, 20 * 60],
  weekend: [8 * 60, 18 * 60],
  takes: ['seals', 'otters', ...SEABIRDS, ...GULLS, ...WATER_BIRDS],
  offers: {
    seals: 4,
    auks: 8,
    gannets: 2,
    tubenoses: 2,
    'gulls-large': 8,
    'gulls-small': 4,
    ducks: 6,
    swans: 2,
    cormorants: 2,
    waders: 2,
  },
  yearly: {
    seals: 46,
    otters: 1,
    auks: 58,
    tubenoses: 16,
    'divers-grebes': 8,
    gannets: 14,
    cormorants: 8,
    'gulls-large': 165,
    'gulls-small': 34,
    swans: 18,
    geese: 8,
    ducks: 45,
    'herons-storks': 4,
    rails: 6,
    waders: 20,
  },
  rooms: [
    {
      name: 'Warm room',
      kind: 'ward',
      enclosures: [heated('Heated unit', 4, 3), heated('Large heated unit', 10, 6)],
    },
    {
      name: 'Seabird room',
      kind: 'ward',
      enclosures: [cages('Net-floor cage', 12, 5, { features: ['net floor'] }), cages('Wide cage', 4, 6)],
    },
    { name: 'Seal room', kind: 'ward', enclosures: [indoorPens('Seal pen', 6, 8), indoorPens('Pen', 6, 7)] },
    {
      name: 'Isolation',
      kind: 'isolation',
      enclosures: [isolation('Isolation', 4, 6), isolation('Large isolation', 2, 8)],
    },
    {
      name: 'Pools',
      kind: 'outdoors',
      enclosures: [
        poolPens('Seabird pool', 4, 6),
        poolPens('Swan pool', 3, 7),
        poolPens('Seal pool', 3, 8, { features: ['pool', 'sea water', 'haul-out'] }),
      ],
    },
    {
      name: 'Dunes',
      kind: 'outdoors',
      enclosures: [
        aviary('Wader aviary', 2, 'sheltered-aviary', [2.4, 5, 2.4]),
        aviary('Gull flight', 4, 'flight-aviary', [4.5, 10, 3.6]),
        outdoorPens('Gull pen', 6, 7),
      ],
    },
  ],
}

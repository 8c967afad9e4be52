/** The long flights: the only aviaries on the coast in which a peregrine can be made fit. */
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
import { GARDEN_BIRDS, GULLS, LARGE_LAND_BIRDS, RAPTORS, STAND_IN_BIRDS } from './groups.ts'

export const FARROWMERE: CentrePlan = {
  name: 'Farrowmere Flights',
  about: 'Birds of prey and crows; the long flight aviaries.',
  phone: '01632 960121',
  spot: [-16, -30],
  nightDoor: 'on-call',
  night: { name: 'Corin Esslemay', phone: '07700 900121' },
  hours: [8 * 60, 18 * 60],
  weekend: [9 * 60, 17 * 60],
  takes: [...GARDEN_BIRDS, ...LARGE_LAND_BIRDS, ...RAPTORS, ...GULLS, 'bats', ...STAND_IN_BIRDS],
  offers: {
    'small-songbirds': 6,
    'thrushes-starlings': 6,
    'pigeons-doves': 4,
    corvids: 5,
    hawks: 2,
    'buzzards-kites-harriers': 3,
    falcons: 3,
    owls: 4,
    'unknown-raptors': 1,
  },
  yearly: {
    'small-songbirds': 70,
    'thrushes-starlings': 75,
    swallows: 10,
    'pigeons-doves': 70,
    corvids: 70,
    'gulls-large': 15,
    hawks: 28,
    'buzzards-kites-harriers': 45,
    falcons: 36,
    'eagles-osprey': 2,
    owls: 65,
    bats: 10,
  },
  rooms: [
    {
      name: 'Hospital',
      kind: 'ward',
      enclosures: [heated('Heated unit', 12, 3), heated('Large heated unit', 8, 6)],
    },
    {
      name: 'Songbird room',
      kind: 'ward',
      predatorsApart: true,
      enclosures: [cages('Small cage', 6, 2)],
    },
    {
      name: 'Cage room',
      kind: 'ward',
      enclosures: [cages('Cage', 24, 5), cages('Wide cage', 4, 6), indoorPens('Pen', 3, 8)],
    },
    { name: 'Isolation', kind: 'isolation', enclosures: [isolation('Isolation', 4, 6)] },
    {
      name: 'Weathering row',
      kind: 'outdoors',
      enclosures: [
        aviary('Weathering', 16, 'sheltered-aviary', [2.4, 5, 2.4]),
        aviary('Long weathering', 10, 'sheltered-aviary', [3, 12, 3]),
      ],
    },
    {
      name: 'The flights',
      kind: 'outdoors',
      enclosures: [
        aviary('Short flight', 10, 'flight-aviary', [2.4, 5, 2.4]),
        aviary('Owl flight', 8, 'flight-aviary', [3, 10, 3.6]),
        aviary('Broad flight', 5, 'flight-aviary', [4.5, 15, 4]),
        aviary('Long flight', 2, 'flight-aviary', [6.1, 30.5, 4.9], { storyCount: 1 }),
      ],
    },
    {
      name: 'Field',
      kind: 'outdoors',
      enclosures: [poolPens('Pond pen', 1, 7), outdoorPens('Run', 4, 7)],
    },
  ],
}

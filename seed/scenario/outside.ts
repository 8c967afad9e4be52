/** Partner practices, places outside the network, drivers: who helps beside the centres. */
import type { Spot } from './geography.ts'
import {
  GARDEN_BIRDS,
  GULLS,
  LARGE_LAND_BIRDS,
  LARGE_MAMMALS,
  RAPTORS,
  SEABIRDS,
  SMALL_MAMMALS,
  STAND_IN_BIRDS,
  STAND_IN_MAMMALS,
  WATER_BIRDS,
} from './groups.ts'

export type PracticePlan = {
  readonly name: string
  readonly phone: string
  readonly nightPhone?: string
  readonly spot: Spot
  readonly note: string
  readonly weekdays: readonly [number, number]
  readonly saturday: readonly [number, number] | undefined
  readonly sees: readonly string[]
}

/** Four practices; their numbers in the database are their places in this list, from 1. */
export const PRACTICES: readonly PracticePlan[] = [
  {
    name: 'Quarrow Bridge Veterinary Centre',
    phone: '01632 960201',
    nightPhone: '07700 900201',
    spot: [-9, -5],
    note: 'Somebody awake all night. Bird bones by Mr Thessalby.',
    weekdays: [8 * 60, 19 * 60],
    saturday: [8 * 60, 13 * 60],
    sees: [
      ...GARDEN_BIRDS,
      ...LARGE_LAND_BIRDS,
      ...RAPTORS,
      ...WATER_BIRDS,
      ...SMALL_MAMMALS,
      ...STAND_IN_BIRDS,
      ...STAND_IN_MAMMALS,
    ],
  },
  {
    name: 'Rookhythe Vets',
    phone: '01632 960211',
    spot: [9, 26],
    note: 'Seabirds and swans; X-ray in the house.',
    weekdays: [8 * 60 + 30, 18 * 60 + 30],
    saturday: [9 * 60, 12 * 60],
    sees: [...WATER_BIRDS, ...GULLS, ...SEABIRDS, 'seals'],
  },
  {
    name: 'Corverley Farm and Wildlife Practice',
    phone: '01632 960221',
    spot: [-24, 3],
    note: 'Badgers, foxes, deer, hedgehogs.',
    weekdays: [8 * 60, 18 * 60],
    saturday: undefined,
    sees: [...SMALL_MAMMALS, ...LARGE_MAMMALS, ...STAND_IN_MAMMALS],
  },
  {
    name: 'Heskwith Exotics',
    phone: '01632 960231',
    spot: [-9, 38],
    note: 'One surgeon, birds of prey by appointment; eyes looked at on Thursdays.',
    weekdays: [9 * 60, 17 * 60],
    saturday: [9 * 60, 12 * 60],
    sees: [...RAPTORS, ...LARGE_LAND_BIRDS, ...GARDEN_BIRDS],
  },
]

export type OutsidePlan = {
  readonly name: string
  readonly phone: string
  readonly takesWords: string
  readonly hoursWords: string
  readonly spot: Spot
  readonly takes: readonly string[]
}

/** Known places outside the network that a finder can be sent to. */
export const OUTSIDE_PLACES: readonly OutsidePlan[] = [
  {
    name: 'Skarrow Swan Haven',
    phone: '01632 960301',
    takesWords: 'Swans, geese and ducks',
    hoursWords: 'Every day 8 to 20, ring before you set out',
    spot: [-52, -20],
    takes: ['swans', 'geese', 'ducks', 'rails'],
  },
  {
    name: 'Velden Moor Deer Line',
    phone: '01632 960311',
    takesWords: 'Deer, by people who come out to them',
    hoursWords: 'Day and night',
    spot: [-48, 12],
    takes: ['deer'],
  },
  {
    name: 'Underhythe Bat Carers',
    phone: '01632 960321',
    takesWords: 'Bats, with a licensed carer',
    hoursWords: 'Evenings from 17 to 22',
    spot: [-38, 48],
    takes: ['bats'],
  },
  {
    name: 'Great Sorrel Wildlife Hospital',
    phone: '01632 960331',
    takesWords: 'Most birds and mammals, when it has room',
    hoursWords: 'Every day 8 to 18',
    spot: [-70, -8],
    takes: [
      ...GARDEN_BIRDS,
      ...LARGE_LAND_BIRDS,
      ...RAPTORS,
      ...WATER_BIRDS,
      ...GULLS,
      ...SEABIRDS,
      ...SMALL_MAMMALS,
      ...LARGE_MAMMALS,
    ],
  },
]

export const DRIVERS: readonly {
  readonly name: string
  readonly phone: string
  readonly area: string
  readonly vehicle: string
  readonly drives_at_night: boolean
}[] = [
  driver('Perrin Oakshade', '401', 'Averbrook and the north shore', 'Estate car, a dog crate fits', true),
  driver('Lowrie Finnacre', '402', 'Inland, as far as Farrowmere', 'Small van, caged off', false),
  driver('Tibby Marchrend', '403', 'The whole coast', 'Pick-up with a covered bed', true),
  driver('Anselm Dewhythe', '404', 'The southern villages', 'Hatchback, two boxes at most', false),
  driver('Roswen Pikestaff', '405', 'Between the hospital and the long aviaries', 'Estate car', false),
  driver('Jory Candlewick', '406', 'The islands ferry and the quay', 'Van with a ramp, seals fit', false),
]

function driver(name: string, digits: string, area: string, vehicle: string, drives_at_night: boolean) {
  return { name, phone: `07700 900${digits}`, area, vehicle, drives_at_night }
}

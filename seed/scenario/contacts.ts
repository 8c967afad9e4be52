/** Who answers for each centre, in order: invented names and numbers kept for such. Lanternhay has its own phone only. */
import type { Row } from '../load/bulk.ts'
import { CENTRES } from './centres.ts'

type Contact = readonly [name: string, phone: string, hours?: readonly [from: number, until: number]]

const DAY = [8 * 60, 20 * 60] as const
const NIGHT = [20 * 60, 8 * 60] as const

const CONTACTS: Readonly<Record<string, readonly Contact[]>> = {
  'Averbrook Wildlife Hospital': [
    ['Odile Brackenray, ward', '01632 960102', DAY],
    ['Night ward', '01632 960103', NIGHT],
    ['Hamo Luckstone', '07700 900112'],
  ],
  'Tamsel House': [
    ['Ansty Kelderwick', '07700 900118'],
    ['Bryony Catchmole', '07700 900119'],
  ],
  'Farrowmere Flights': [
    ['Corin Esslemay', '07700 900121'],
    ['Delphie Harrowgrass', '07700 900122'],
  ],
  'Osterskeld Seal and Seabird Unit': [
    ['Yrsa Colbrand', '07700 900131'],
    ['Fenton Quillmere', '07700 900132', DAY],
  ],
  'Withenholt Bird Ward': [['Sunniva Thackwell', '07700 900141']],
}

export function contactRows(): [table: string, rows: Row[]] {
  return [
    'centre_contact',
    CENTRES.flatMap((centre, at) =>
      (CONTACTS[centre.name] ?? []).map(([name, phone, hours], index) => ({
        centre_id: at + 1,
        position: index + 1,
        name,
        phone,
        from_minute: hours?.[0] ?? null,
        until_minute: hours?.[1] ?? null,
      })),
    ),
  ]
}

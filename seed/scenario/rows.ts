/** The network as rows: what stands still while animals come and go. Numbers are the places in the scenario's lists. */
import type { Trade } from '#lib/domain/trade.ts'
import { groupOf } from '#lib/domain/trade.ts'
import type { Row } from '../load/bulk.ts'
import { CENTRES } from './centres.ts'
import { GAZETTEER, kmApart, positionOf } from './geography.ts'
import { DRIVERS, OUTSIDE_PLACES, PRACTICES } from './outside.ts'
import { emailOf, PEOPLE } from './people.ts'
import { listEnclosures, listRooms } from './site.ts'
import { LANTERNHAY } from './small-centres.ts'
import { stockingOf } from './stock.ts'
import { yearShapeOf } from './year-shape.ts'

/** Roads are longer than the straight line, and slower than a motorway: issue figures, ours. */
const ROAD_FACTOR = 1.3
const KM_PER_MINUTE = 50 / 60
const WEEKDAYS = [1, 2, 3, 4, 5, 6, 7]
const SATURDAY = 6

type Tables = [table: string, rows: Row[]][]

/** The network, its policy and its line. */
export function networkRows(today: string): Tables {
  return [
    [
      'network',
      [
        {
          name: 'Sallowmere Coast Wildlife Network',
          line_phone: '01632 960100',
          time_zone: 'Europe/London',
          jurisdiction: 'England',
          authority_name: 'Animal Disease Duty Office',
          authority_phone: '01632 960900',
          demo_made_on: today,
        },
      ],
    ],
    [
      'policy',
      [
        {
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
          ask_lapse_minutes: 10,
          finder_days: 30,
        },
      ],
    ],
    [
      'gazetteer_place',
      GAZETTEER.map(place => ({
        name: place.name,
        kind: place.kind,
        also_called: place.also === undefined ? [] : [place.also],
        ...positionOf(place.spot),
      })),
    ],
  ]
}

/** Centres with their doors, rooms, enclosures, stocking and usual arrivals. */
export function centreRows(trade: Trade): Tables {
  const ids = CENTRES.map((centre, at) => [centre, at + 1] as const)
  return [
    [
      'centre',
      ids.map(([centre, id]) => ({
        id,
        name: centre.name,
        about: centre.about,
        phone: centre.phone,
        ...positionOf(centre.spot),
        night_door: centre.nightDoor,
        night_name: centre.night?.name ?? null,
        night_phone: centre.night?.phone ?? null,
      })),
    ],
    [
      'centre_hours',
      ids.flatMap(([centre, centre_id]) =>
        WEEKDAYS.map(weekday => {
          const [opens_minute, closes_minute] =
            weekday >= SATURDAY ? (centre.weekend ?? centre.hours) : centre.hours
          return { centre_id, weekday, opens_minute, closes_minute }
        }),
      ),
    ],
    [
      'centre_takes',
      ids.flatMap(([centre, centre_id]) => centre.takes.map(group_slug => ({ centre_id, group_slug }))),
    ],
    [
      'standing_offer',
      ids.flatMap(([centre, centre_id]) =>
        Object.entries(centre.offers).map(([group_slug, places]) => ({ centre_id, group_slug, places })),
      ),
    ],
    ['licence_holder', holderRows(trade)],
    ['travel', travelRows()],
    ['room', listRooms()],
    ['enclosure', listEnclosures().map(({ plan: _plan, isForStory: _isForStory, ...row }) => row)],
    ['stocking', stockingRows(trade)],
    ['year_arrivals', yearRows()],
  ]
}

/** The smallest centre holds no licence: birds that need one are not planned there. */
function holderRows(trade: Trade): Row[] {
  const rules = trade.keys.filter(({ kind, needs_holder }) => kind === 'licence' && needs_holder)
  return rules.flatMap(({ key }) =>
    CENTRES.flatMap((centre, at) =>
      centre === LANTERNHAY
        ? []
        : [
            {
              kind: 'licence',
              key,
              centre_id: at + 1,
              licence_no: `Invented ${key} ${at + 1}`,
              valid_from: '2020-01-01',
              valid_until: null,
            },
          ],
    ),
  )
}

function travelRows(): Row[] {
  return CENTRES.flatMap((from, a) =>
    CENTRES.flatMap((to, b) => {
      if (a === b) return []
      const km = Number((kmApart(from.spot, to.spot) * ROAD_FACTOR).toFixed(1))
      return [{ from_centre_id: a + 1, to_centre_id: b + 1, km, minutes: Math.round(km / KM_PER_MINUTE) }]
    }),
  )
}

function stockingRows(trade: Trade): Row[] {
  const all = trade.species.map(species => ({ species, group: groupOf(trade, species.group_slug) }))
  return listEnclosures().flatMap(enclosure => {
    const takes = CENTRES[enclosure.centre_id - 1]?.takes ?? []
    const here = all.filter(one => takes.includes(one.group.slug))
    return [...stockingOf(enclosure.plan, here)].map(([company_slug, places]) => ({
      enclosure_id: enclosure.id,
      company_slug,
      places,
    }))
  })
}

function yearRows(): Row[] {
  return CENTRES.flatMap((centre, at) =>
    Object.entries(centre.yearly).map(([group_slug, animals]) => {
      const { months, sizes, mark } = yearShapeOf(group_slug)
      return {
        centre_id: at + 1,
        group_slug,
        animals_per_year: animals,
        month_shares: months,
        event_sizes: sizes,
        mark,
      }
    }),
  )
}

/** Practices, places outside, drivers. */
export function outsideRows(): Tables {
  return [
    [
      'practice',
      PRACTICES.map((practice, at) => ({
        id: at + 1,
        name: practice.name,
        phone: practice.phone,
        ...positionOf(practice.spot),
        has_night_cover: practice.nightPhone !== undefined,
        night_phone: practice.nightPhone ?? null,
        note: practice.note,
      })),
    ],
    [
      'practice_hours',
      PRACTICES.flatMap((practice, at) =>
        WEEKDAYS.flatMap(weekday => {
          const hours =
            weekday < SATURDAY ? practice.weekdays : weekday === SATURDAY ? practice.saturday : undefined
          if (hours === undefined) return []
          return [{ practice_id: at + 1, weekday, opens_minute: hours[0], closes_minute: hours[1] }]
        }),
      ),
    ],
    [
      'practice_sees',
      PRACTICES.flatMap((practice, at) =>
        practice.sees.map(group_slug => ({ practice_id: at + 1, group_slug })),
      ),
    ],
    [
      'outside_place',
      OUTSIDE_PLACES.map((place, at) => ({
        id: at + 1,
        name: place.name,
        phone: place.phone,
        takes_words: place.takesWords,
        hours_words: place.hoursWords,
        ...positionOf(place.spot),
      })),
    ],
    [
      'outside_place_takes',
      OUTSIDE_PLACES.flatMap((place, at) =>
        place.takes.map(group_slug => ({ outside_place_id: at + 1, group_slug })),
      ),
    ],
    ['driver', DRIVERS.map((driver, at) => ({ id: at + 1, ...driver }))],
  ]
}

/** People and their roles, all with the demo's password. */
export function peopleRows(passwordHash: string): Tables {
  const centreId = (name: string) => CENTRES.findIndex(centre => centre.name === name) + 1
  const practiceId = (name: string) => PRACTICES.findIndex(practice => practice.name === name) + 1
  return [
    [
      'person',
      PEOPLE.map((person, at) => ({
        id: at + 1,
        name: person.name,
        email: emailOf(person),
        password_hash: passwordHash,
        phone: person.phone ?? null,
      })),
    ],
    [
      'person_role',
      PEOPLE.flatMap((person, at) =>
        person.roles.map(role => ({
          person_id: at + 1,
          role: role.role,
          centre_id: role.role === 'carer' ? centreId(role.centre) : null,
          practice_id: role.role === 'vet' ? practiceId(role.practice) : null,
        })),
      ),
    ],
  ]
}

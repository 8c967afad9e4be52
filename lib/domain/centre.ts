/**
 * Centres as they are set up: contact, hours, who opens at night, what they take and offer, their rooms, their stops.
 * Promise: what these schemas accept the tables accept; a centre on call names who opens.
 */
import { z } from 'zod'
import {
  aboutField,
  latitudeField,
  longitudeField,
  nameField,
  phoneField,
  weekHours,
  weekHoursForm,
} from './contact.ts'
import { filledEntries } from './form-rows.ts'
import { blankable, checkboxText, decimalText, integerText } from './text.ts'

export const NIGHT_DOORS = ['staffed', 'on-call', 'shut'] as const
export const ROOM_KINDS = ['ward', 'isolation', 'outdoors'] as const
/** The states of a site beside "open" (trade 1.5). */
export const SITE_STATES = ['closed-to-high-risk', 'isolation-full', 'no-movement'] as const
export const STANDING_OFFER_MAX = 1000
export const WALKING_ORDER_MAX = 10_000
export const REASON_MAX = 300

const slug = z.string().min(1).max(80)

export const centreFields = {
  name: nameField.meta({ title: 'Name' }),
  about: aboutField.default('').meta({ title: 'About', hint: 'What a finder should know' }),
  phone: phoneField.meta({ title: 'Phone' }),
  latitude: latitudeField,
  longitude: longitudeField,
  hours: weekHours('centre'),
  nightDoor: z.enum(NIGHT_DOORS).meta({ title: 'At night' }),
  nightName: nameField.nullable().meta({ title: 'Who opens at night' }),
  nightPhone: phoneField.nullable().meta({ title: 'Night phone' }),
  takes: z.array(slug).meta({ title: 'Takes' }),
}

const ON_CALL = { path: ['nightName'], params: { rule: 'centre_on_call_names_who_opens' } }

export const centre = z.strictObject(centreFields).refine(namesWhoOpens, ON_CALL)

export const standingOffer = z.strictObject({
  group: slug.meta({ title: 'Group' }),
  places: z.int().min(0).max(STANDING_OFFER_MAX).meta({ title: 'Places without asking' }),
})

/** A centre with its standing offers, as its form sends it. */
export const centreForm = z
  .object({
    name: centreFields.name,
    about: centreFields.about,
    phone: centreFields.phone,
    latitude: decimalText.pipe(latitudeField),
    longitude: decimalText.pipe(longitudeField),
    hours: weekHoursForm('centre'),
    nightDoor: centreFields.nightDoor,
    nightName: blankable(nameField),
    nightPhone: blankable(phoneField),
    takes: centreFields.takes.default([]),
    offers: filledEntries(integerText.pipe(standingOffer.shape.places)).transform(rows =>
      rows.map(([group, places]) => ({ group, places })),
    ),
  })
  .refine(namesWhoOpens, ON_CALL)
export type CentreWithOffers = z.infer<typeof centreForm>

export const room = z.strictObject({
  name: nameField.meta({ title: 'Name' }),
  kind: z.enum(ROOM_KINDS).meta({ title: 'Kind' }),
  walkingOrder: z.int().min(0).max(WALKING_ORDER_MAX).meta({ title: 'Walking order' }),
  predatorsApart: z.boolean().meta({ title: 'Predators and prey never together in this room' }),
})
export type Room = z.infer<typeof room>

export const roomForm = z.object({
  name: room.shape.name,
  kind: room.shape.kind,
  walkingOrder: integerText.pipe(room.shape.walkingOrder),
  predatorsApart: checkboxText,
})

export const movementStop = z
  .strictObject({
    siteState: z.enum(SITE_STATES).meta({ title: 'State of the site' }),
    coversClass: z.enum(['bird', 'mammal']).nullable().meta({ title: 'Covers', hint: 'Empty: all animals' }),
    startsAt: z.date().meta({ title: 'From' }),
    endsAt: z.date().nullable().meta({ title: 'Until', hint: 'Empty: until it is lifted' }),
    reason: z.string().trim().min(1).max(REASON_MAX).meta({ title: 'Reason' }),
  })
  .refine(stop => stop.endsAt === null || stop.endsAt.getTime() > stop.startsAt.getTime(), {
    path: ['endsAt'],
    params: { rule: 'movement_stop_ends_after_it_starts' },
  })
export type MovementStop = z.infer<typeof movementStop>

export const TRAVEL_MAX_KM = 2000
export const TRAVEL_MAX_MIN = 2880

export const travel = z.strictObject({
  km: z.number().min(0).max(TRAVEL_MAX_KM).meta({ title: 'Road', unit: 'km' }),
  minutes: z.number().min(0).max(TRAVEL_MAX_MIN).meta({ title: 'Drive', unit: 'minutes' }),
})

function namesWhoOpens(one: {
  readonly nightDoor: string
  readonly nightName: string | null
  readonly nightPhone: string | null
}): boolean {
  return one.nightDoor !== 'on-call' || (one.nightName !== null && one.nightPhone !== null)
}

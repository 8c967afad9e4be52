/**
 * Who answers for a centre, in the order in which they are asked, each with the hours in which they may be rung.
 * Promise: hours from later to earlier go over midnight; nobody is rung outside of theirs. Minutes of the wall clock.
 */
import { z } from 'zod'
import { nameField, phoneField } from './contact.ts'
import { filledRows } from './form-rows.ts'
import { MINUTES_PER_DAY } from './hours.ts'
import { clockText } from './text.ts'

export const CONTACTS_MAX = 12
const EMAIL_MAX = 254

export const contactFields = {
  name: nameField.meta({ title: 'Name' }),
  phone: phoneField.meta({ title: 'Phone' }),
  email: z.email().max(EMAIL_MAX).nullable().meta({ title: 'E-mail' }),
  fromMinute: z
    .int()
    .min(0)
    .max(MINUTES_PER_DAY - 1)
    .nullable()
    .meta({ title: 'From' }),
  untilMinute: z.int().min(0).max(MINUTES_PER_DAY).nullable().meta({ title: 'Until' }),
}

export const centreContact = z
  .strictObject(contactFields)
  .refine(one => (one.fromMinute === null) === (one.untilMinute === null), {
    path: ['untilMinute'],
    params: { rule: 'centre_contact_hours_both_or_none' },
  })
  .refine(one => one.fromMinute === null || one.fromMinute !== one.untilMinute, {
    path: ['untilMinute'],
    params: { rule: 'centre_contact_hours_in_range' },
  })
export type CentreContact = z.infer<typeof centreContact>

const clock = z.union([z.literal('').transform(() => null), clockText])

/** The list as its form sends it: one line each, in order. */
export const contactsForm = z.object({
  contacts: filledRows(
    z
      .object({
        name: z.string(),
        phone: z.string(),
        email: z
          .string()
          .trim()
          .transform(text => (text === '' ? null : text)),
        fromMinute: clock,
        untilMinute: clock,
      })
      .pipe(centreContact),
  ).pipe(z.array(centreContact).max(CONTACTS_MAX)),
})

/** Whether somebody may be rung at a minute of the day. */
export function isReachable(
  { fromMinute, untilMinute }: Pick<CentreContact, 'fromMinute' | 'untilMinute'>,
  minute: number,
): boolean {
  if (fromMinute === null || untilMinute === null) return true
  return fromMinute < untilMinute
    ? fromMinute <= minute && minute < untilMinute
    : fromMinute <= minute || minute < untilMinute
}

/**
 * People as they are set up: name, e-mail, roles with the place they are tied to.
 * Promise: e-mail addresses are kept in lower case; a carer's role names a centre, a vet's a practice, others neither.
 */
import { z } from 'zod'
import { nameField, phoneField } from './contact.ts'
import { DEMO_PASSWORD } from './demo-password.mjs'
import { filledRows } from './form-rows.ts'
import { switchForm } from './setup-form.ts'
import { blankable, integerText } from './text.ts'

export const EMAIL_MAX = 254
export const PASSWORD_MIN = 12
export const PASSWORD_MAX = 200
export const ROLE_NAMES = ['coordinator', 'carer', 'vet', 'manager', 'administrator'] as const
export type RoleName = (typeof ROLE_NAMES)[number]

export const heldRole = z
  .strictObject({
    role: z.enum(ROLE_NAMES).meta({ title: 'Role' }),
    centreId: z.int().positive().nullable().meta({ title: 'Centre' }),
    practiceId: z.int().positive().nullable().meta({ title: 'Practice' }),
  })
  .refine(
    one =>
      (one.role === 'carer') === (one.centreId !== null) &&
      (one.role === 'vet') === (one.practiceId !== null),
    { path: ['role'], params: { rule: 'person_role_names_its_place' } },
  )

export const personFields = {
  name: nameField.meta({ title: 'Name' }),
  email: z.string().trim().toLowerCase().pipe(z.email().max(EMAIL_MAX)).meta({ title: 'E-mail' }),
  phone: phoneField.nullable().meta({ title: 'Phone' }),
  roles: z
    .array(heldRole)
    .min(1)
    .refine(roles => new Set(roles.map(role => JSON.stringify(role))).size === roles.length, {
      params: { rule: 'person_role_once' },
    })
    .meta({ title: 'Roles' }),
}
export const person = z.strictObject(personFields)
export type Person = z.infer<typeof person>

export const newPassword = z
  .string()
  .min(PASSWORD_MIN)
  .max(PASSWORD_MAX)
  .refine(typed => typed !== DEMO_PASSWORD, { params: { rule: 'password-of-demonstration' } })
  .meta({ title: 'Password' })

const optionalId = blankable(integerText.pipe(z.int().positive()))

export const personForm = z.object({
  name: personFields.name,
  email: personFields.email,
  phone: blankable(phoneField),
  roles: filledRows(
    z.object({ role: heldRole.shape.role, centreId: optionalId, practiceId: optionalId }).pipe(heldRole),
  ).pipe(personFields.roles),
})

/** A password that was just made up; it is not trimmed, and never given back. */
export const passwordForm = z.object({ newPassword })

/** Somebody new may come without one: she is invited by a link. */
export const firstPasswordForm = z.object({
  newPassword: z.union([z.literal(''), newPassword]).default(''),
})

/** What somebody owes is passed on, to whom stands here, before she is switched off or leaves the desk. */
export const heirForm = z.object({ passTo: optionalId.meta({ title: 'Pass them on to' }) })
export const leaverForm = switchForm.extend(heirForm.shape)

/** A new password of one's own: the one that holds now is asked for. */
export const ownPasswordForm = passwordForm.extend({ oldPassword: z.string().min(1).max(PASSWORD_MAX) })

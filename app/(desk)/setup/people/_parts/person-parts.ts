import { heirForm, newPassword, personFields, ROLE_NAMES } from '#lib/domain/person.ts'
import type { Leaving, PersonForm } from '#lib/service/setup/person.ts'
import { dutiesWords, LEAVER } from '#lib/words/leaver.ts'
import { PERSON_FORM, roleWords } from '#lib/words/setup-form.ts'
import { type Part, phone, said, text } from '../../_parts/spec.ts'

const EMPTY_ROLES = 2

/** What is asked about a person. */
export function personParts({ person, centres, practices }: PersonForm): Part[] {
  return [
    {
      id: 'who',
      head: PERSON_FORM.who,
      fields: [
        text('name', personFields.name, person?.name),
        {
          kind: 'text',
          name: 'email',
          ...said(personFields.email),
          type: 'email',
          start: person?.email ?? '',
        },
        phone('phone', personFields.phone, person?.phone),
      ],
    },
    {
      id: 'roles-part',
      head: PERSON_FORM.roles,
      note: PERSON_FORM.rolesNote,
      fields: [
        {
          kind: 'rows',
          name: 'roles',
          label: said(personFields.roles).label,
          hint: PERSON_FORM.rolesHint,
          cells: [
            {
              key: 'role',
              label: PERSON_FORM.role,
              options: ROLE_NAMES.map(role => ({ value: role, text: roleWords(role) })),
            },
            { key: 'centreId', label: PERSON_FORM.centre, options: centres.map(optionOf) },
            { key: 'practiceId', label: PERSON_FORM.practice, options: practices.map(optionOf) },
          ],
          start: (person?.roles ?? []).map(held => ({
            role: held.role,
            centreId: held.centreId === null ? '' : String(held.centreId),
            practiceId: held.practiceId === null ? '' : String(held.practiceId),
          })),
          empty: EMPTY_ROLES,
        },
      ],
    },
  ]
}

/** Who takes over what somebody owes, should she leave the desk. */
export function heirPart({ duties, heirs }: Leaving): Part {
  return {
    id: 'pass-on',
    head: LEAVER.deskHead,
    note: LEAVER.deskNote,
    fields: [
      {
        kind: 'select',
        name: 'passTo',
        ...said(heirForm.shape.passTo),
        hint: dutiesWords(duties),
        none: LEAVER.none,
        options: heirs.map(optionOf),
        start: '',
      },
    ],
  }
}

/** The password of somebody new, or a new one for somebody there. */
export function passwordPart(isFirst: boolean): Part {
  return {
    id: 'password',
    head: isFirst ? PERSON_FORM.first : PERSON_FORM.again,
    note: isFirst ? PERSON_FORM.firstNote : PERSON_FORM.againNote,
    fields: [
      {
        kind: 'text',
        name: 'newPassword',
        ...said(newPassword),
        hint: PERSON_FORM.passwordHint,
        type: 'password',
        autoComplete: 'new-password',
        start: '',
      },
    ],
  }
}

function optionOf(place: { readonly id: number; readonly name: string }) {
  return { value: String(place.id), text: place.name }
}

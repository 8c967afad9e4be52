import { type CentreContact, contactFields } from '#lib/domain/centre-contact.ts'
import { CONTACT_FORM } from '#lib/words/setup-form.ts'
import { clockWords } from '../../_parts/shared-fields.ts'
import { type Part, said } from '../../_parts/spec.ts'

const EMPTY_LINES = 2

/** Who answers for a centre, one line each, in the order in which they are asked. */
export function contactParts(contacts: readonly CentreContact[]): Part[] {
  const clock = (minute: number | null) => (minute === null ? '' : clockWords(minute))
  return [
    {
      id: 'contacts',
      head: CONTACT_FORM.head,
      note: CONTACT_FORM.note,
      fields: [
        {
          kind: 'rows',
          name: 'contacts',
          label: CONTACT_FORM.head,
          hint: CONTACT_FORM.hint,
          cells: [
            { key: 'name', label: said(contactFields.name).label },
            { key: 'phone', label: said(contactFields.phone).label },
            { key: 'email', label: said(contactFields.email).label },
            { key: 'fromMinute', label: said(contactFields.fromMinute).label, inputMode: 'numeric' },
            { key: 'untilMinute', label: said(contactFields.untilMinute).label, inputMode: 'numeric' },
          ],
          start: contacts.map(one => ({
            name: one.name,
            phone: one.phone,
            email: one.email ?? '',
            fromMinute: clock(one.fromMinute),
            untilMinute: clock(one.untilMinute),
          })),
          empty: EMPTY_LINES,
        },
      ],
    },
  ]
}

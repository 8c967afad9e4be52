import { practiceFields } from '#lib/domain/practice.ts'
import type { PracticeForm } from '#lib/service/setup/practice.ts'
import { PRACTICE_FORM } from '#lib/words/setup-form.ts'
import { SETUP_PAGE } from '#lib/words/setup-page.ts'
import { groupChoices, hoursRows, positionFields } from '../../_parts/shared-fields.ts'
import { type Part, phone, said, text } from '../../_parts/spec.ts'

/** What is asked about a partner practice. */
export function practiceParts({ practice, groups }: PracticeForm): Part[] {
  return [
    {
      id: 'who',
      head: SETUP_PAGE.who,
      fields: [
        text('name', practiceFields.name, practice?.name),
        phone('phone', practiceFields.phone, practice?.phone),
        ...positionFields(practice),
        { kind: 'area', name: 'note', ...said(practiceFields.note), start: practice?.note ?? '' },
      ],
    },
    {
      id: 'doors',
      head: SETUP_PAGE.hours,
      note: PRACTICE_FORM.doorsNote,
      fields: [
        hoursRows(practice?.hours),
        {
          kind: 'tick',
          name: 'hasNightCover',
          ...said(practiceFields.hasNightCover),
          start: practice?.hasNightCover ?? false,
        },
        phone('nightPhone', practiceFields.nightPhone, practice?.nightPhone),
      ],
    },
    {
      id: 'sees',
      head: PRACTICE_FORM.sees,
      note: PRACTICE_FORM.seesNote,
      fields: [groupChoices('sees[]', said(practiceFields.sees).label, groups, practice?.sees ?? [])],
    },
  ]
}

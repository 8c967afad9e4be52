import { closure } from '#lib/domain/closure.ts'
import { CLOSURE_FORM } from '#lib/words/setup-form.ts'
import { SETUP_PAGE } from '#lib/words/setup-page.ts'
import { instant, type Part, select, text } from '../../_parts/spec.ts'

type Choice = {
  readonly id: number
  readonly name: string
  readonly room: string
  readonly centre: string
}

/** What is asked to close an enclosure. */
export function closureParts(enclosures: readonly Choice[]): Part[] {
  const { enclosureId, startsAt, endsAt, reason } = closure.shape
  return [
    {
      id: 'what',
      head: CLOSURE_FORM.what,
      fields: [
        select(
          'enclosureId',
          enclosureId,
          undefined,
          enclosures.map(one => ({
            value: String(one.id),
            text: `${one.room}, ${one.name}`,
            group: one.centre,
          })),
          SETUP_PAGE.choose,
        ),
        text('reason', reason, ''),
      ],
    },
    {
      id: 'until',
      head: CLOSURE_FORM.until,
      note: CLOSURE_FORM.note,
      fields: [
        { ...instant('startsAt', startsAt, ''), hint: CLOSURE_FORM.startsHint },
        instant('endsAt', endsAt, ''),
      ],
    },
  ]
}

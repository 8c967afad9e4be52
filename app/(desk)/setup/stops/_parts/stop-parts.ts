import { movementStop, SITE_STATES } from '#lib/domain/centre.ts'
import { CLASSES } from '#lib/domain/species.ts'
import { siteStateWords } from '#lib/words/setup.ts'
import { SETUP_PAGE } from '#lib/words/setup-page.ts'
import { coversWords, STOP_FORM, siteStateDoes } from '#lib/words/setup-stop.ts'
import { instant, type Part, said, text } from '../../_parts/spec.ts'

/** What is asked to set the state of a site. */
export function stopParts(centres: readonly { readonly id: number; readonly name: string }[]): Part[] {
  const { siteState, coversClass, startsAt, endsAt, reason } = movementStop.shape
  return [
    {
      id: 'what',
      head: STOP_FORM.what,
      note: STOP_FORM.note,
      fields: [
        {
          kind: 'select',
          name: 'centreId',
          label: SETUP_PAGE.centre,
          start: '',
          none: SETUP_PAGE.choose,
          options: centres.map(centre => ({ value: String(centre.id), text: centre.name })),
        },
        {
          kind: 'choices',
          name: 'siteState',
          ...said(siteState),
          many: false,
          start: [],
          choices: SITE_STATES.map(state => ({
            value: state,
            label: siteStateWords(state),
            sub: siteStateDoes(state),
          })),
        },
        {
          kind: 'select',
          name: 'coversClass',
          label: said(coversClass).label,
          start: '',
          none: STOP_FORM.all,
          options: CLASSES.map(one => ({ value: one, text: coversWords(one) })),
        },
        text('reason', reason, ''),
      ],
    },
    {
      id: 'when',
      head: STOP_FORM.when,
      note: STOP_FORM.whenNote,
      fields: [
        { ...instant('startsAt', startsAt, ''), hint: STOP_FORM.startsHint },
        instant('endsAt', endsAt, ''),
      ],
    },
  ]
}

import { centreFields, NIGHT_DOORS, standingOffer } from '#lib/domain/centre.ts'
import type { CentreForm } from '#lib/service/setup/centre.ts'
import { nightDoorWords } from '#lib/words/setup.ts'
import { CENTRE_FORM } from '#lib/words/setup-form.ts'
import { SETUP_PAGE } from '#lib/words/setup-page.ts'
import { groupChoices, hoursRows, positionFields } from '../../_parts/shared-fields.ts'
import { type Part, phone, said, text } from '../../_parts/spec.ts'

/** What is asked about a centre. */
export function centreParts({ centre, groups }: CentreForm): Part[] {
  const offers = new Map(centre?.offers.map(offer => [offer.group, String(offer.places)]))
  return [
    {
      id: 'who',
      head: SETUP_PAGE.who,
      fields: [
        text('name', centreFields.name, centre?.name),
        { kind: 'area', name: 'about', ...said(centreFields.about), start: centre?.about ?? '' },
        phone('phone', centreFields.phone, centre?.phone),
        ...positionFields(centre),
      ],
    },
    {
      id: 'doors',
      head: SETUP_PAGE.hours,
      note: CENTRE_FORM.doorsNote,
      fields: [
        hoursRows(centre?.hours),
        {
          kind: 'choices',
          name: 'nightDoor',
          ...said(centreFields.nightDoor),
          many: false,
          start: [centre?.nightDoor ?? 'shut'],
          choices: NIGHT_DOORS.map(door => ({ value: door, label: nightDoorWords(door) })),
        },
        text('nightName', centreFields.nightName, centre?.nightName),
        phone('nightPhone', centreFields.nightPhone, centre?.nightPhone),
      ],
    },
    {
      id: 'takes',
      head: CENTRE_FORM.takesHead,
      note: CENTRE_FORM.takesNote,
      fields: [groupChoices('takes[]', said(centreFields.takes).label, groups, centre?.takes ?? [])],
    },
    {
      id: 'offers',
      head: CENTRE_FORM.offersHead,
      note: CENTRE_FORM.offersNote,
      fields: [
        {
          kind: 'boxes',
          name: 'offers',
          label: said(standingOffer.shape.places).label,
          boxes: groups.map(group => ({
            name: `offers.${group.id}`,
            label: group.name,
            start: offers.get(group.id) ?? '',
          })),
          fold: CENTRE_FORM.offersFold,
        },
      ],
    },
  ]
}

import { PLACE_KINDS, type Place, placeFields } from '#lib/domain/gazetteer.ts'
import { SETUP_PAGE } from '#lib/words/setup-page.ts'
import { PLACE_PAGE, placeKindWords } from '#lib/words/setup-place.ts'
import { positionFields } from '../../_parts/shared-fields.ts'
import { type Part, select, text } from '../../_parts/spec.ts'

/** What is asked about a place of the gazetteer. */
export function placeParts(place: Place | undefined): Part[] {
  return [
    {
      id: 'place',
      head: PLACE_PAGE.head,
      note: PLACE_PAGE.note,
      fields: [
        text('name', placeFields.name, place?.name),
        select(
          'kind',
          placeFields.kind,
          place?.kind,
          PLACE_KINDS.map(kind => ({ value: kind, text: placeKindWords(kind) })),
          SETUP_PAGE.choose,
        ),
        text('alsoCalled', placeFields.alsoCalled, place?.alsoCalled.join('; ')),
        ...positionFields(place),
      ],
    },
  ]
}

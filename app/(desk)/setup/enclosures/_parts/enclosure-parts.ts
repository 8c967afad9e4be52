import { DRIES_AFTER, enclosureFields, newFeaturesField } from '#lib/domain/enclosure.ts'
import { HOUSING_TYPES } from '#lib/domain/housing.ts'
import type { EnclosureForm } from '#lib/service/setup/enclosure.ts'
import { housingWords } from '#lib/words/care.ts'
import { driesAfterWords } from '#lib/words/setup.ts'
import { ENCLOSURE_FORM } from '#lib/words/setup-form.ts'
import { SETUP_PAGE } from '#lib/words/setup-page.ts'
import { type FieldSpec, number, type Part, said, select, text } from '../../_parts/spec.ts'

/** What is asked about an enclosure. */
export function enclosureParts({ enclosure, rooms, companies, features: known }: EnclosureForm): Part[] {
  const stocking = new Map(enclosure?.stocking.map(row => [row.company, String(row.places)]))
  const { housingType, sizeRank, widthM, lengthM, heightM } = enclosureFields
  return [
    {
      id: 'what',
      head: ENCLOSURE_FORM.what,
      fields: [
        text('name', enclosureFields.name, enclosure?.name),
        select(
          'roomId',
          enclosureFields.roomId,
          enclosure?.roomId,
          rooms.map(room => ({ value: String(room.id), text: room.name, group: room.centre })),
          SETUP_PAGE.choose,
        ),
        select(
          'housingType',
          housingType,
          enclosure?.housingType,
          HOUSING_TYPES.map(type => ({ value: type, text: housingWords(type) })),
          SETUP_PAGE.choose,
        ),
        ...featureFields(enclosure?.features ?? [], known),
        number('walkingOrder', enclosureFields.walkingOrder, enclosure?.walkingOrder),
      ],
    },
    {
      id: 'size',
      head: ENCLOSURE_FORM.size,
      note: ENCLOSURE_FORM.sizeNote,
      fields: [
        number('sizeRank', sizeRank, enclosure?.sizeRank),
        number('widthM', widthM, enclosure?.widthM),
        number('lengthM', lengthM, enclosure?.lengthM),
        number('heightM', heightM, enclosure?.heightM),
      ],
    },
    {
      id: 'cleaning',
      head: ENCLOSURE_FORM.care,
      fields: [
        {
          ...number('turnaroundMin', enclosureFields.turnaroundMin, enclosure?.turnaroundMin ?? 0),
          hint: ENCLOSURE_FORM.minutesHint,
        },
        select(
          'driesAfter',
          enclosureFields.driesAfter,
          enclosure?.driesAfter ?? 'company',
          DRIES_AFTER.map(after => ({ value: after, text: driesAfterWords(after) })),
        ),
      ],
    },
    {
      id: 'stocking',
      head: ENCLOSURE_FORM.stocking,
      note: ENCLOSURE_FORM.stockingNote,
      fields: [
        {
          kind: 'boxes',
          name: 'stocking',
          label: ENCLOSURE_FORM.stockingLabel,
          boxes: companies.map(company => ({
            name: `stocking.${company.id}`,
            label: company.name.replaceAll('; ', ', '),
            start: stocking.get(company.id) ?? '',
          })),
          fold: ENCLOSURE_FORM.stockingFold,
        },
      ],
    },
  ]
}

/** What is in use anywhere to tick, and a line for what is new. */
function featureFields(start: readonly string[], known: readonly string[]): FieldSpec[] {
  const choices = known.map(feature => ({ value: feature, label: feature }))
  const ticks: FieldSpec = {
    kind: 'choices',
    name: 'features[]',
    ...said(enclosureFields.features),
    many: true,
    start,
    choices,
    columns: 3,
  }
  return [...(choices.length === 0 ? [] : [ticks]), text('newFeatures', newFeaturesField, '')]
}

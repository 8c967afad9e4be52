import { z } from 'zod'
import { yearArrivalsFields } from '#lib/domain/arrivals.ts'
import { OURS } from '#lib/domain/care-plan-form.ts'
import { percentText } from '#lib/domain/form-rows.ts'
import { ALL_SPECIES_SHAPE } from '#lib/domain/season.ts'
import type { ArrivalsChoices } from '#lib/service/setup/arrivals.ts'
import { MONTHS } from '#lib/words/dates.ts'
import { SEASON_NOTE } from '#lib/words/setup.ts'
import { ARRIVALS_FORM, sizeWords } from '#lib/words/setup-form.ts'
import { SETUP_PAGE } from '#lib/words/setup-page.ts'
import { type FieldSpec, number, type Part, select, text } from '../../_parts/spec.ts'

const SIZES_LEAST = 8
const SIZES_MORE = 4

type Figures = {
  readonly animalsPerYear: number
  readonly monthShares: readonly number[]
  readonly eventSizes: readonly number[]
  readonly mark: string
}

/** Which line a new one is. */
export function whoseArrivals({ centres, groups }: ArrivalsChoices): Part {
  const { centreId, group } = yearArrivalsFields
  return {
    id: 'who',
    head: ARRIVALS_FORM.who,
    fields: [
      select(
        'centreId',
        centreId,
        undefined,
        centres.map(one => ({ value: String(one.id), text: one.name })),
        SETUP_PAGE.choose,
      ),
      select(
        'group',
        group,
        undefined,
        groups.map(one => ({ value: one.id, text: one.name })),
        SETUP_PAGE.choose,
      ),
    ],
  }
}

/** The figures of a line; a new one starts with the usual shape of a year. */
export function arrivalsParts(arrivals: Figures | undefined): Part[] {
  const sizes = Math.max(SIZES_LEAST, (arrivals?.eventSizes.length ?? 0) + SIZES_MORE)
  return [
    {
      id: 'how-many',
      head: ARRIVALS_FORM.howMany,
      note: ARRIVALS_FORM.noughtNote,
      fields: [number('animalsPerYear', yearArrivalsFields.animalsPerYear, arrivals?.animalsPerYear)],
    },
    {
      id: 'months',
      head: ARRIVALS_FORM.months,
      note: SEASON_NOTE,
      fields: [
        shares(
          'monthShares',
          ARRIVALS_FORM.monthsLabel,
          MONTHS,
          arrivals?.monthShares ?? ALL_SPECIES_SHAPE.shares,
        ),
      ],
    },
    {
      id: 'sizes',
      head: ARRIVALS_FORM.sizes,
      note: ARRIVALS_FORM.sizesNote,
      fields: [
        shares(
          'eventSizes',
          ARRIVALS_FORM.sizesLabel,
          Array.from({ length: sizes }, (_, at) => sizeWords(at + 1)),
          arrivals?.eventSizes ?? [1],
        ),
      ],
    },
    {
      id: 'source',
      head: ARRIVALS_FORM.source,
      fields: [
        {
          ...text('mark', yearArrivalsFields.mark, arrivals?.mark ?? OURS),
          hint: ARRIVALS_FORM.sourceHint,
        },
      ],
    },
  ]
}

function shares(name: string, label: string, labels: readonly string[], start: readonly number[]): FieldSpec {
  return {
    kind: 'boxes',
    name,
    label,
    unit: '%',
    boxes: labels.map((one, at) => {
      const share = start[at]
      return {
        name: `${name}.${at}`,
        label: one,
        start: share === undefined ? '' : z.encode(percentText, share),
      }
    }),
  }
}

import { seasonFields } from '#lib/domain/season-form.ts'
import { SEASON_KINDS, type SpeciesSeason } from '#lib/domain/season-gate.ts'
import { SEASON_PAGE, seasonKindWords } from '#lib/words/setup-knowledge.ts'
import { SETUP_PAGE } from '#lib/words/setup-page.ts'
import { type FieldSpec, number, type Part, select, text } from '../../_parts/spec.ts'

type Choice = { readonly slug: string; readonly commonName: string }

/** What is asked about a season; a new one is also given its species and kind. */
export function seasonParts(season: SpeciesSeason | undefined, species: readonly Choice[] = []): Part[] {
  const { opens, closes, grams, mark, note } = seasonFields
  const named = species.map(({ slug, commonName }) => ({ value: slug, text: commonName }))
  const kinds = SEASON_KINDS.map(kind => ({ value: kind, text: seasonKindWords(kind) }))
  const which: FieldSpec[] =
    season === undefined
      ? [
          select('species', seasonFields.species, '', named, SETUP_PAGE.choose),
          select('kind', seasonFields.kind, '', kinds, SETUP_PAGE.choose),
        ]
      : []
  return [
    {
      id: 'season',
      head: SEASON_PAGE.head,
      note: SEASON_PAGE.note,
      fields: [
        ...which,
        text('opens', opens, season?.opens),
        text('closes', closes, season?.closes),
        ...(season?.kind === 'migration' ? [] : [number('grams', grams, season?.grams)]),
        text('mark', mark, season?.mark),
        text('note', note, season?.note),
      ],
    },
  ]
}

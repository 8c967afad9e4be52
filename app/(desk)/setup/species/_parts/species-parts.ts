import type { RuleKind } from '#lib/domain/knowledge-form.ts'
import { ADULT_ALONE, speciesFields, speciesNumbers } from '#lib/domain/species-form.ts'
import type { SpeciesPage } from '#lib/service/setup/species.ts'
import { adultAloneWords, appliesWords, SPECIES_PAGE } from '#lib/words/setup-knowledge.ts'
import { SETUP_PAGE } from '#lib/words/setup-page.ts'
import { date, type FieldSpec, number, type Part, said, select, text } from '../../_parts/spec.ts'

/** What is asked about a species. */
export function speciesParts(page: SpeciesPage): Part[] {
  return [
    namePart(page),
    sharePart(page),
    sizePart(page),
    youngPart(page),
    handlingPart(page),
    notePart(page),
  ]
}

function namePart({ species }: SpeciesPage): Part {
  return {
    id: 'who',
    head: SPECIES_PAGE.who,
    fields: [
      text('commonName', speciesFields.commonName, species?.commonName),
      text('alsoCalled', speciesFields.alsoCalled, species?.alsoCalled.join('; ')),
      text('scientificName', speciesFields.scientificName, species?.scientificName),
    ],
  }
}

function sharePart({ species, groups, companies }: SpeciesPage): Part {
  const groupOptions = groups.map(group => ({
    value: group.id,
    text: group.name,
    group: appliesWords(group.animalClass === 'mammal' ? 'mammal' : 'bird'),
  }))
  return {
    id: 'share',
    head: SPECIES_PAGE.share,
    note: SPECIES_PAGE.shareNote,
    fields: [
      select('groupSlug', speciesFields.groupSlug, species?.groupSlug, groupOptions, SETUP_PAGE.choose),
      select(
        'companySlug',
        speciesFields.companySlug,
        species?.companySlug,
        companies.map(company => ({ value: company.id, text: company.name })),
        SETUP_PAGE.choose,
      ),
      select(
        'adultAlone',
        speciesFields.adultAlone,
        species?.adultAlone ?? 'no',
        ADULT_ALONE.map(alone => ({ value: alone, text: adultAloneWords(alone) })),
      ),
    ],
  }
}

function sizePart({ species }: SpeciesPage): Part {
  return {
    id: 'size',
    head: SPECIES_PAGE.size,
    fields: [
      number('sizeRank', speciesNumbers.sizeRank, species?.sizeRank),
      number('massGLow', speciesNumbers.massGLow, species?.massGLow),
      number('massGHigh', speciesNumbers.massGHigh, species?.massGHigh),
      { ...text('massMark', speciesFields.massMark, species?.massMark ?? ''), label: SPECIES_PAGE.massMark },
      number('flightLengthMinM', speciesNumbers.flightLengthMinM, species?.flightLengthMinM),
      text('flightMark', speciesFields.flightMark, species?.flightMark),
    ],
  }
}

function youngPart({ species }: SpeciesPage): Part {
  return {
    id: 'young',
    head: SPECIES_PAGE.young,
    note: SPECIES_PAGE.youngNote,
    fields: [
      {
        kind: 'tick',
        name: 'isImprintRisk',
        ...said(speciesFields.isImprintRisk),
        start: species?.isImprintRisk ?? false,
      },
      number('youngFromMonth', speciesNumbers.youngFromMonth, species?.youngFromMonth),
      number('youngToMonth', speciesNumbers.youngToMonth, species?.youngToMonth),
      text('youngMark', speciesFields.youngMark, species?.youngMark),
    ],
  }
}

function handlingPart({ species, rules }: SpeciesPage): Part {
  const choicesOf = (kind: RuleKind) =>
    rules.filter(rule => rule.kind === kind).map(rule => ({ value: rule.key, label: rule.meaning }))
  const many = (name: 'handlingCautions' | 'licenceKeys', kind: RuleKind): FieldSpec => ({
    kind: 'choices',
    name: `${name}[]`,
    ...said(speciesFields[name]),
    many: true,
    start: species?.[name] ?? [],
    choices: choicesOf(kind),
    columns: 2,
  })
  return {
    id: 'handling',
    head: SPECIES_PAGE.handling,
    note: SPECIES_PAGE.handlingNote,
    fields: [
      many('handlingCautions', 'handling'),
      many('licenceKeys', 'licence'),
      text('licenceMark', speciesFields.licenceMark, species?.licenceMark),
      date('reviewedOn', speciesFields.reviewedOn, species?.reviewedOn),
    ],
  }
}

function notePart({ species }: SpeciesPage): Part {
  return {
    id: 'notes',
    head: SPECIES_PAGE.notes,
    fields: [
      text('releaseSeasonNote', speciesFields.releaseSeasonNote, species?.releaseSeasonNote),
      { kind: 'area', name: 'note', ...said(speciesFields.note), start: species?.note ?? '' },
    ],
  }
}

import { HOUSED_STAGES } from '#lib/domain/group-housing.ts'
import { type CareStage, HOUSING_TYPES } from '#lib/domain/housing.ts'
import { CLASSES, groupClassField, groupFields, MINUTES_OF } from '#lib/domain/knowledge-form.ts'
import type { GroupPage } from '#lib/service/setup/group.ts'
import { capital } from '#lib/words/capital.ts'
import { housingWords, stageWords } from '#lib/words/care.ts'
import { appliesWords, GROUP_PAGE, orElseWords } from '#lib/words/setup-knowledge.ts'
import { SETUP_PAGE } from '#lib/words/setup-page.ts'
import { date, type FieldSpec, type Part, said, select, text } from '../../_parts/spec.ts'

type Shown = GroupPage['group']

/** What is asked about a group of species; its class only once. */
export function groupParts({ group, companies }: GroupPage): Part[] {
  return [whatPart(group), housingPart(group), stockPart(group, companies), minutesPart(group)]
}

function whatPart(group: Shown): Part {
  const classes = CLASSES.map(one => ({ value: one, text: appliesWords(one) }))
  return {
    id: 'group',
    head: GROUP_PAGE.head,
    note: GROUP_PAGE.note,
    fields: [
      text('name', groupFields.name, group?.name),
      ...(group === undefined ? [select('class', groupClassField, '', classes, SETUP_PAGE.choose)] : []),
      {
        kind: 'area',
        name: 'temperament',
        ...said(groupFields.temperament),
        start: group?.temperament ?? '',
      },
      text('temperamentMark', groupFields.temperamentMark, group?.temperamentMark),
      {
        kind: 'tick',
        name: 'isHighRiskInfluenza',
        ...said(groupFields.isHighRiskInfluenza),
        start: group?.isHighRiskInfluenza ?? false,
      },
      date('reviewedOn', groupFields.reviewedOn, group?.reviewedOn),
    ],
  }
}

function housingPart(group: Shown): Part {
  return {
    id: 'housing',
    head: GROUP_PAGE.housing,
    note: GROUP_PAGE.housingNote,
    fields: [
      ...HOUSED_STAGES.flatMap(stage => housingOf(stage, group)),
      text('housingMark', groupFields.housingMark, group?.housingMark),
    ],
  }
}

/** The preferred kind of a stage, and what serves as well. */
function housingOf(stage: CareStage, group: Shown): FieldSpec[] {
  const label = capital(stageWords(stage))
  const [first = '', otherwise = ''] = group?.housing[stage] ?? []
  const options = HOUSING_TYPES.map(type => ({ value: type, text: capital(housingWords(type)) }))
  return [
    {
      kind: 'select',
      name: `housing.${stage}`,
      label,
      start: first,
      options,
      none: GROUP_PAGE.asPlanned,
    },
    {
      kind: 'select',
      name: `housingElse.${stage}`,
      label: orElseWords(label),
      start: otherwise,
      options,
      none: GROUP_PAGE.nothingElse,
    },
  ]
}

function stockPart(group: Shown, companies: GroupPage['companies']): Part {
  return {
    id: 'stock',
    head: GROUP_PAGE.stock,
    note: GROUP_PAGE.stockNote,
    fields: [
      select(
        'defaultCompany',
        groupFields.defaultCompany,
        group?.defaultCompany,
        companies.map(company => ({ value: company.id, text: company.name })),
        SETUP_PAGE.choose,
      ),
      {
        kind: 'boxes',
        name: 'stock',
        label: GROUP_PAGE.stockLabel,
        boxes: HOUSING_TYPES.map(type => ({
          name: `stock.${type}`,
          label: capital(housingWords(type)),
          start: boxOf(group?.stock[type]),
        })),
      },
      text('stockMark', groupFields.stockMark, group?.stockMark),
    ],
  }
}

function minutesPart(group: Shown): Part {
  return {
    id: 'minutes',
    head: GROUP_PAGE.minutes,
    note: GROUP_PAGE.minutesNote,
    fields: [
      {
        kind: 'boxes',
        name: 'minutes',
        label: GROUP_PAGE.minutesLabel,
        boxes: MINUTES_OF.map(of => ({
          name: `minutes.${of}`,
          label: capital(of === 'hand-rearing' ? GROUP_PAGE.handRearing : stageWords(of)),
          start: boxOf(group?.minutes[of]),
        })),
      },
      text('minutesMark', groupFields.minutesMark, group?.minutesMark),
    ],
  }
}

const boxOf = (number: number | undefined) => (number === undefined ? '' : String(number))

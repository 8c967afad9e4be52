import { HOUSING_TYPES } from '#lib/domain/housing.ts'
import { groupFields, MINUTES_OF } from '#lib/domain/knowledge-form.ts'
import type { GroupPage } from '#lib/service/setup/group.ts'
import { housingWords, stageWords } from '#lib/words/care.ts'
import { GROUP_PAGE } from '#lib/words/setup-knowledge.ts'
import { SETUP_PAGE } from '#lib/words/setup-page.ts'
import { date, type Part, said, select, text } from '../../_parts/spec.ts'

/** What is asked about a group of species. */
export function groupParts({ group, companies }: GroupPage): Part[] {
  return [
    {
      id: 'group',
      head: GROUP_PAGE.head,
      note: GROUP_PAGE.note,
      fields: [
        text('name', groupFields.name, group.name),
        { kind: 'area', name: 'temperament', ...said(groupFields.temperament), start: group.temperament },
        text('temperamentMark', groupFields.temperamentMark, group.temperamentMark),
        {
          kind: 'tick',
          name: 'isHighRiskInfluenza',
          ...said(groupFields.isHighRiskInfluenza),
          start: group.isHighRiskInfluenza,
        },
        date('reviewedOn', groupFields.reviewedOn, group.reviewedOn),
      ],
    },
    {
      id: 'stock',
      head: GROUP_PAGE.stock,
      note: GROUP_PAGE.stockNote,
      fields: [
        select(
          'defaultCompany',
          groupFields.defaultCompany,
          group.defaultCompany,
          companies.map(company => ({ value: company.id, text: company.name })),
          SETUP_PAGE.choose,
        ),
        {
          kind: 'boxes',
          name: 'stock',
          label: GROUP_PAGE.stockLabel,
          boxes: HOUSING_TYPES.map(type => ({
            name: `stock.${type}`,
            label: housingWords(type),
            start: group.stock[type] === undefined ? '' : String(group.stock[type]),
          })),
        },
        text('stockMark', groupFields.stockMark, group.stockMark),
      ],
    },
    {
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
            label: of === 'hand-rearing' ? GROUP_PAGE.handRearing : stageWords(of),
            start: group.minutes[of] === undefined ? '' : String(group.minutes[of]),
          })),
        },
        text('minutesMark', groupFields.minutesMark, group.minutesMark),
      ],
    },
  ]
}

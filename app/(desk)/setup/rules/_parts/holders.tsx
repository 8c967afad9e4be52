import { EmptyState } from '#app/_ui/notice.tsx'
import { Section } from '#app/_ui/section.tsx'
import { DataTable } from '#app/_ui/table.tsx'
import { OneButton } from '#app/(desk)/calls/_parts/one-button.tsx'
import { Act } from '#app/(desk)/casualties/_parts/act.tsx'
import { dayOfDate } from '#lib/domain/day.ts'
import type { Holders as Held } from '#lib/service/licence.ts'
import { CHANGE } from '#lib/words/casualty-change.ts'
import { dateWithYear } from '#lib/words/dates.ts'
import { LICENCE } from '#lib/words/licence.ts'
import { authoriseAction, unauthoriseAction } from '../actions.ts'
import '../../../casualties/card.css'

type Props = { readonly holders: Held; readonly id: string; readonly mayChange: boolean }

/** Which centres hold the licence that a rule asks for. */
export function Holders({ holders: { holders, choices }, id, mayChange }: Props) {
  const day = (date: string | null) => (date === null ? '' : dateWithYear(dayOfDate(date)))
  return (
    <Section id="holders" head={LICENCE.holders} note={LICENCE.holdersNote}>
      {holders.length === 0 ? (
        <EmptyState sentence={LICENCE.noHolders} coming={LICENCE.noHoldersComing} />
      ) : (
        <DataTable
          caption={LICENCE.holders}
          hideCaption
          rows={holders}
          keyOf={one => String(one.centreId)}
          columns={[
            { key: 'centre', head: LICENCE.centre, isRowHead: true, cell: one => one.centre },
            { key: 'no', head: LICENCE.licenceNo, cell: one => one.licenceNo },
            { key: 'from', head: LICENCE.from, cell: one => day(one.validFrom) },
            { key: 'until', head: LICENCE.until, cell: one => day(one.validUntil) },
            {
              key: 'do',
              head: LICENCE.remove,
              phoneLabel: '',
              cell: one =>
                mayChange && (
                  <OneButton
                    action={unauthoriseAction}
                    text={LICENCE.remove}
                    weight="plain"
                    fields={{ id, centreId: String(one.centreId) }}
                  />
                ),
            },
          ]}
        />
      )}
      {mayChange && (
        <Act
          id="authorise"
          action={authoriseAction}
          title={LICENCE.add}
          submit={CHANGE.record}
          hidden={{ id }}
          fields={[
            {
              kind: 'select',
              name: 'centreId',
              label: LICENCE.centre,
              none: CHANGE.choose,
              options: choices.map(one => ({ value: String(one.id), text: one.name })),
            },
            { kind: 'text', name: 'licenceNo', label: LICENCE.licenceNo },
            { kind: 'date', name: 'validFrom', label: LICENCE.from },
            { kind: 'date', name: 'validUntil', label: LICENCE.until, hint: LICENCE.untilHint },
          ]}
        />
      )}
    </Section>
  )
}

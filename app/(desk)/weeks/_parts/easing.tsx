import { EmptyState } from '#app/_ui/notice.tsx'
import { Section } from '#app/_ui/section.tsx'
import { DataTable } from '#app/_ui/table.tsx'
import type { Eased } from '#lib/service/weeks-ease.ts'
import { WEEKS, WEEKS_HEADS } from '#lib/words/weeks.ts'
import { changeWords, EASE_WORDS, easeAsks, easeTitle, worstWords } from '#lib/words/weeks-why.ts'

/** What would ease the tight days, each change on its own, and at last leaving it. */
export function Easing({ easings }: { readonly easings: readonly Eased[] }) {
  return (
    <Section id="ease" head={WEEKS.ease} note={easings.length === 0 ? undefined : WEEKS.easeNote}>
      {easings.length === 0 ? (
        <EmptyState sentence={EASE_WORDS.nothing} coming={EASE_WORDS.nothingComing} />
      ) : (
        <DataTable
          caption={WEEKS.ease}
          hideCaption
          rows={easings}
          keyOf={row => titleOf(row)}
          columns={[
            { key: 'change', head: WEEKS_HEADS.change, isRowHead: true, phoneLabel: '', cell: titleOf },
            { key: 'tight', head: WEEKS_HEADS.tight, right: true, cell: row => row.tightDays },
            {
              key: 'worst',
              head: WEEKS_HEADS.worstDay,
              right: true,
              cell: row => worstWords(row.worst.chance, row.worst.day),
            },
            {
              key: 'here',
              head: WEEKS_HEADS.shortHere,
              right: true,
              cell: row => row.shortHere.toFixed(2),
            },
            { key: 'all', head: WEEKS_HEADS.inAll, right: true, cell: row => changeWords(row.change) },
            {
              key: 'asks',
              head: WEEKS_HEADS.asks,
              phoneLabel: '',
              cell: row => (row.ease === null ? null : easeAsks(row.ease)),
            },
          ]}
        />
      )}
    </Section>
  )
}

function titleOf({ ease }: Eased): string {
  return ease === null ? EASE_WORDS.leave : easeTitle(ease)
}

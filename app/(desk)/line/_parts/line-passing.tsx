import { EmptyState } from '#app/_ui/notice.tsx'
import { Section } from '#app/_ui/section.tsx'
import { type Column, DataTable } from '#app/_ui/table.tsx'
import { What, When } from '#app/(desk)/due/_parts/due-list.tsx'
import type { DueItem, DueKind } from '#lib/domain/due.ts'
import type { LineTurn } from '#lib/domain/line.ts'
import { dayAndClock } from '#lib/words/dates.ts'
import { howWords, kindHead, LINE, thingsWords } from '#lib/words/line.ts'

type Clock = { readonly now: Date; readonly zone: string }

const KINDS: readonly DueKind[] = ['call', 'call-back', 'ask', 'on-the-road', 'hold']

/** What goes along with the line, kind by kind, each by its hour; on paper with a box to tick. */
export function Passing({
  items,
  holder,
  now,
  zone,
}: { readonly items: readonly DueItem[]; readonly holder: string } & Clock) {
  return (
    <Section id="passes" head={LINE.passes} note={LINE.passesNote} strong>
      {items.length === 0 ? (
        <EmptyState sentence={LINE.nothingPasses} coming={LINE.nothingPassesComing} />
      ) : (
        KINDS.map(kind => ({ kind, of: items.filter(({ about }) => about.kind === kind) }))
          .filter(({ of }) => of.length > 0)
          .map(({ kind, of }) => (
            <div key={kind} className="line-kind">
              <h3>
                {kindHead(kind)} <span className="quiet">{of.length}</span>
              </h3>
              <Items caption={kindHead(kind)} items={of} holder={holder} now={now} zone={zone} />
            </div>
          ))
      )}
    </Section>
  )
}

/** What others promised and keep. */
export function Staying({ items, now, zone }: { readonly items: readonly DueItem[] } & Clock) {
  if (items.length === 0) return null
  return (
    <Section id="stays" head={LINE.stays} note={LINE.staysNote}>
      <div className="line-kind">
        <Items caption={LINE.stays} items={items} holder="" now={now} zone={zone} />
      </div>
    </Section>
  )
}

function Items(
  props: { readonly caption: string; readonly items: readonly DueItem[]; readonly holder: string } & Clock,
) {
  const { caption, items, holder, now, zone } = props
  const columns: Column<DueItem>[] = [
    {
      key: 'when',
      head: LINE.owed,
      phoneLabel: '',
      cell: item => <When item={item} now={now} zone={zone} />,
    },
    { key: 'what', head: LINE.what, isRowHead: true, cell: item => <What item={item} zone={zone} /> },
    { key: 'who', head: LINE.who, cell: item => (item.isOwnerThere ? item.owner : holder) },
    { key: 'done', head: LINE.done, phoneLabel: '', cell: () => <Box /> },
  ]
  return <DataTable caption={caption} hideCaption rows={items} keyOf={item => item.key} columns={columns} />
}

/** Only paper has it. */
function Box() {
  return (
    <span className="line-box">
      <i aria-hidden="true" /> {LINE.done}
    </span>
  )
}

/** Who held it before, the newest first. */
export function Turns({ turns, zone }: { readonly turns: readonly LineTurn[]; readonly zone: string }) {
  return (
    <Section id="before" head={LINE.before} note={LINE.beforeNote}>
      {turns.length === 0 ? (
        <EmptyState sentence={LINE.nobodyBefore} coming={LINE.nobodyBeforeComing} />
      ) : (
        <DataTable
          caption={LINE.before}
          hideCaption
          rows={turns}
          keyOf={turn => String(turn.id)}
          columns={[
            { key: 'holder', head: LINE.holder, isRowHead: true, cell: turn => turn.holder },
            { key: 'from', head: LINE.from, cell: turn => dayAndClock(turn.takenAt, zone) },
            { key: 'until', head: LINE.ended, cell: turn => dayAndClock(turn.endedAt ?? turn.untilAt, zone) },
            { key: 'how', head: LINE.how, cell: howWords },
            { key: 'passed', head: LINE.passed, cell: turn => thingsWords(turn.passed.length) },
          ]}
        />
      )}
    </Section>
  )
}

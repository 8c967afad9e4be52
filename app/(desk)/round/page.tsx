import type { Metadata } from 'next'
import { redirect } from 'next/navigation'
import { EmptyState } from '#app/_ui/notice.tsx'
import { Answer, Section } from '#app/_ui/section.tsx'
import { DataTable } from '#app/_ui/table.tsx'
import { listRounds } from '#lib/service/round.ts'
import { load } from '#lib/web/load.ts'
import { currentDay } from '#lib/web/network.ts'
import { paths } from '#lib/web/paths.ts'
import { requireActor } from '#lib/web/session.ts'
import { animalsWords, countedWords, ROUND } from '#lib/words/round.ts'
import { Desk } from '../_parts/desk.tsx'
import './round.css'

export const metadata: Metadata = { title: ROUND.title }

/** Whoever has one centre goes straight to it; the others choose. */
export default async function RoundsPage() {
  const [actor, { now, zone }] = await Promise.all([requireActor(), currentDay()])
  const centres = await load(listRounds(actor))
  const [only, ...others] = centres
  if (only !== undefined && others.length === 0) redirect(paths.round(only.id))
  return (
    <Desk current="round">
      <Answer place={ROUND.title} sentence={ROUND.chooseSentence} />
      <Section id="centres" head={ROUND.choose} note={ROUND.chooseNote} strong>
        {centres.length === 0 ? (
          <EmptyState sentence={ROUND.none} coming={ROUND.noneComing} />
        ) : (
          <div className="round-list">
            <DataTable
              caption={ROUND.choose}
              hideCaption
              rows={centres}
              keyOf={row => String(row.id)}
              columns={[
                {
                  key: 'centre',
                  head: ROUND.centre,
                  isRowHead: true,
                  cell: row => <a href={paths.round(row.id)}>{row.name}</a>,
                },
                { key: 'inside', head: ROUND.inside, cell: row => animalsWords(row.inside) },
                {
                  key: 'counted',
                  head: ROUND.lastCount,
                  cell: row => countedWords(row.countedAt, now, zone),
                },
              ]}
            />
          </div>
        )}
      </Section>
    </Desk>
  )
}

import type { Metadata } from 'next'
import { EmptyState } from '#app/_ui/notice.tsx'
import { Answer, Section } from '#app/_ui/section.tsx'
import { Pagination } from '#app/_ui/table.tsx'
import { may } from '#lib/authz/demand.ts'
import { queryOf } from '#lib/domain/who-is-where.ts'
import { listWhoIsWhere } from '#lib/service/who-is-where.ts'
import { currentNow } from '#lib/web/clock.ts'
import { load } from '#lib/web/load.ts'
import { paths } from '#lib/web/paths.ts'
import { requireActor } from '#lib/web/session.ts'
import { listSentence, nobodyWords, WHO } from '#lib/words/who-is-where.ts'
import { Desk } from '../_parts/desk.tsx'
import { WhoFilter, WhoKinds } from './_parts/who-filter.tsx'
import { WhoTable, whoPages, whoTable } from './_parts/who-table.tsx'
import './casualties.css'

export const metadata: Metadata = { title: WHO.title }

type Props = { readonly searchParams: Promise<Record<string, string | string[] | undefined>> }

export default async function WhoIsWherePage({ searchParams }: Props) {
  const [actor, query, now] = await Promise.all([requireActor(), searchParams, currentNow()])
  const list = await load(listWhoIsWhere(actor, query, now))
  const { asked, total, rows } = list
  const isFiltered = [asked.centre, asked.group, asked.stage, asked.text].some(one => one !== undefined)
  const table = whoTable(list)
  return (
    <Desk current="who-is-where">
      <Answer
        place={WHO.title}
        sentence={listSentence(asked.show, total, isFiltered)}
        basis={asked.show === 'gone' ? undefined : WHO.note}
      >
        <WhoKinds asked={asked} />
      </Answer>
      <Section id="find" head={WHO.find}>
        <WhoFilter list={list} />
      </Section>
      <Section id="animals" head={WHO.list} strong>
        {rows.length === 0 ? (
          <EmptyState {...nobodyWords(asked.show, isFiltered)} />
        ) : (
          <>
            <WhoTable list={list} table={table} />
            <div className="who-foot">
              <Pagination {...whoPages(list, table)} />
              {may(actor, 'export.read') && <a href={paths.casualtiesCsv(queryOf(asked))}>{WHO.csv}</a>}
            </div>
          </>
        )}
      </Section>
    </Desk>
  )
}

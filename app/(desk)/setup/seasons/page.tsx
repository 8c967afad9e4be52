import type { Metadata } from 'next'
import { may } from '#lib/authz/demand.ts'
import { listSeasons } from '#lib/service/setup/season.ts'
import { load } from '#lib/web/load.ts'
import { paths } from '#lib/web/paths.ts'
import { requireActor } from '#lib/web/session.ts'
import { seasonIdOf } from '#lib/web/setup-form.ts'
import { gramsWords } from '#lib/words/casualty-happened.ts'
import { monthDayWords } from '#lib/words/casualty-plan.ts'
import { markWords } from '#lib/words/mark.ts'
import { SETUP } from '#lib/words/setup.ts'
import { SEASON_PAGE, seasonKindWords } from '#lib/words/setup-knowledge.ts'
import { addWords, listAnswer, SETUP_PAGE, stateWords } from '#lib/words/setup-page.ts'
import { SetupFrame } from '../_parts/frame.tsx'
import { SetupList } from '../_parts/list.tsx'

export const metadata: Metadata = { title: SETUP.seasons }

export default async function SeasonsPage() {
  const actor = await requireActor()
  const rows = await load(listSeasons(actor))
  const on = rows.filter(row => row.isActive).length
  return (
    <SetupFrame
      noun="seasons"
      sentence={listAnswer(on, rows.length - on, 'season', 'seasons')}
      basis={SEASON_PAGE.basis}
    >
      <SetupList
        head={SETUP.seasons}
        several="seasons"
        rows={rows}
        keyOf={seasonIdOf}
        add={
          may(actor, 'setup.seasons')
            ? { href: paths.setupNew('seasons'), text: addWords('a season') }
            : undefined
        }
        columns={[
          {
            key: 'species',
            head: SEASON_PAGE.species,
            isRowHead: true,
            cell: row => <a href={paths.setupItem('seasons', seasonIdOf(row))}>{row.name}</a>,
          },
          { key: 'kind', head: SETUP_PAGE.kind, cell: row => seasonKindWords(row.kind) },
          { key: 'from', head: SEASON_PAGE.from, cell: row => monthDayWords(row.opens) },
          { key: 'until', head: SEASON_PAGE.until, cell: row => monthDayWords(row.closes) },
          {
            key: 'grams',
            head: SEASON_PAGE.under,
            right: true,
            cell: row => (row.grams === null ? '' : gramsWords(row.grams)),
          },
          { key: 'source', head: SEASON_PAGE.source, cell: row => markWords(row.mark) },
          { key: 'state', head: SETUP_PAGE.state, cell: row => stateWords(row.isActive) },
        ]}
      />
    </SetupFrame>
  )
}

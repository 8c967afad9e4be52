import type { Metadata } from 'next'
import { may } from '#lib/authz/demand.ts'
import { getSeason } from '#lib/service/setup/season.ts'
import { load } from '#lib/web/load.ts'
import { pageWord } from '#lib/web/params.ts'
import { paths } from '#lib/web/paths.ts'
import { requireActor } from '#lib/web/session.ts'
import { seasonIdOf, seasonKeyOf } from '#lib/web/setup-form.ts'
import { seasonLine } from '#lib/words/season.ts'
import { SETUP } from '#lib/words/setup.ts'
import { SEASON_PAGE, seasonTitle } from '#lib/words/setup-knowledge.ts'
import { switchedWords } from '#lib/words/setup-page.ts'
import { SetupFrame } from '../../_parts/frame.tsx'
import { RecordForm } from '../../_parts/record-form.tsx'
import { SwitchSection } from '../../_parts/switch-section.tsx'
import { seasonParts } from '../_parts/season-parts.ts'
import { changeSeasonAction, switchSeasonAction } from '../actions.ts'

export const metadata: Metadata = { title: SETUP.seasons }

export default async function SeasonPage({ params, searchParams }: PageProps<'/setup/seasons/[id]'>) {
  const [actor, { id }, { kept }] = await Promise.all([requireActor(), params, searchParams])
  const season = await load((async () => getSeason(actor, seasonKeyOf(decodeURIComponent(id))))())
  const mayChange = may(actor, 'setup.seasons')
  const here = seasonIdOf(season)
  return (
    <SetupFrame
      noun="seasons"
      sentence={switchedWords(seasonTitle(season.name, season.kind), season.isActive)}
      basis={`${seasonLine(season)}.`}
      kept={pageWord(kept)}
    >
      <RecordForm
        mayChange={mayChange}
        action={changeSeasonAction}
        parts={seasonParts(season)}
        id={here}
        version={season.version}
        here={paths.setupItem('seasons', here)}
      />
      {mayChange && (
        <SwitchSection
          action={switchSeasonAction}
          id={here}
          version={season.version}
          isActive={season.isActive}
          note={SEASON_PAGE.switchNote}
        />
      )}
    </SetupFrame>
  )
}

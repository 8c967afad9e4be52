import type { Metadata } from 'next'
import { Actions, ButtonLink } from '#app/_ui/button.tsx'
import { Section } from '#app/_ui/section.tsx'
import { may } from '#lib/authz/demand.ts'
import { listStops } from '#lib/service/setup/stop.ts'
import { load } from '#lib/web/load.ts'
import { currentDay } from '#lib/web/network.ts'
import { pageWord } from '#lib/web/params.ts'
import { paths } from '#lib/web/paths.ts'
import { requireActor } from '#lib/web/session.ts'
import { SETUP } from '#lib/words/setup.ts'
import { addWords } from '#lib/words/setup-page.ts'
import { STOP_PAGE, stopsAnswer } from '#lib/words/setup-stop.ts'
import { SetupFrame } from '../_parts/frame.tsx'
import { StopTable } from './_parts/stop-table.tsx'

export const metadata: Metadata = { title: SETUP.stops }

export default async function StopsPage({ searchParams }: PageProps<'/setup/stops'>) {
  const [actor, { now, zone }, { kept }] = await Promise.all([requireActor(), currentDay(), searchParams])
  const { open, over, openCentres } = await load(listStops(actor, now))
  const planned = open.filter(row => row.startsAt.getTime() > now.getTime()).length
  return (
    <SetupFrame noun="stops" sentence={stopsAnswer(open.length - planned, planned)} kept={pageWord(kept)}>
      {may(actor, 'site-state.change') && (
        <div className="list-do">
          <Actions>
            <ButtonLink weight="filled" href={paths.setupNew('stops')}>
              {addWords('a state of a site')}
            </ButtonLink>
          </Actions>
        </div>
      )}
      <StopTable
        id="open"
        head={STOP_PAGE.open}
        rows={open}
        zone={zone}
        empty={{ sentence: STOP_PAGE.noneOpen, coming: STOP_PAGE.noneOpenComing }}
        strong
      />
      <Section id="sites" head={STOP_PAGE.openSites} note={STOP_PAGE.openDoes}>
        <ul className="lines">
          {openCentres.map(name => (
            <li key={name}>{name}</li>
          ))}
        </ul>
      </Section>
      <StopTable
        id="over"
        head={STOP_PAGE.over}
        rows={over}
        zone={zone}
        empty={{ sentence: STOP_PAGE.noneOver, coming: STOP_PAGE.noneOverComing }}
      />
    </SetupFrame>
  )
}

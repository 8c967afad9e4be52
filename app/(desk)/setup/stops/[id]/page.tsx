import type { Metadata } from 'next'
import { Facts, Section } from '#app/_ui/section.tsx'
import { may } from '#lib/authz/demand.ts'
import { getStop } from '#lib/service/setup/stop.ts'
import { load } from '#lib/web/load.ts'
import { currentDay } from '#lib/web/network.ts'
import { pageNumber, pageWord } from '#lib/web/params.ts'
import { requireActor } from '#lib/web/session.ts'
import { dayAndClock } from '#lib/words/dates.ts'
import { SETUP, siteStateWords } from '#lib/words/setup.ts'
import { coveredWords, coversWords, STOP_PAGE, siteStateDoes, stopAnswer } from '#lib/words/setup-stop.ts'
import { SetupFrame } from '../../_parts/frame.tsx'
import { OneButton } from '../../_parts/one-button.tsx'
import { liftStopAction } from '../actions.ts'

export const metadata: Metadata = { title: SETUP.stops }

export default async function StopPage({ params, searchParams }: PageProps<'/setup/stops/[id]'>) {
  const [actor, { now, zone }, { id }, { kept }] = await Promise.all([
    requireActor(),
    currentDay(),
    params,
    searchParams,
  ])
  const { stop, state, inside } = await load(getStop(actor, pageNumber(id), now))
  const isPlanned = state === 'planned'
  return (
    <SetupFrame
      noun="stops"
      sentence={stopAnswer(stop.centre, siteStateWords(stop.siteState), state)}
      basis={siteStateDoes(stop.siteState)}
      kept={pageWord(kept)}
    >
      <Section id="facts" head={STOP_PAGE.facts} strong>
        <Facts
          facts={[
            { term: STOP_PAGE.covers, value: coversWords(stop.coversClass) },
            { term: STOP_PAGE.from, value: dayAndClock(stop.startsAt, zone) },
            {
              term: STOP_PAGE.until,
              value: stop.endsAt === null ? STOP_PAGE.openEnd : dayAndClock(stop.endsAt, zone),
            },
            { term: STOP_PAGE.reason, value: stop.reason },
            ...(state === 'over' ? [] : [{ term: STOP_PAGE.inside, value: coveredWords(inside) }]),
          ]}
        />
      </Section>
      {state !== 'over' && may(actor, 'site-state.change') && (
        <Section
          id="end"
          head={STOP_PAGE.ending}
          note={isPlanned ? STOP_PAGE.takeBackNote : STOP_PAGE.endNote}
        >
          <OneButton
            action={liftStopAction}
            text={isPlanned ? STOP_PAGE.takeBack : STOP_PAGE.end}
            fields={{ id: String(stop.id) }}
          />
        </Section>
      )}
    </SetupFrame>
  )
}

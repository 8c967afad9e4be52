import type { Metadata } from 'next'
import { Answer } from '#app/_ui/section.tsx'
import { may } from '#lib/authz/demand.ts'
import { readAsksOfCall } from '#lib/service/ask.ts'
import { namesOfWriters, readCall, readCallBacks } from '#lib/service/call.ts'
import { findCallOutcome } from '#lib/service/call-outcome.ts'
import { offerSheet } from '#lib/service/call-sheet.ts'
import { answerCall } from '#lib/service/option.ts'
import { readSameCalls } from '#lib/service/same-animal.ts'
import { load } from '#lib/web/load.ts'
import { currentDay, currentNetwork } from '#lib/web/network.ts'
import { pageNumber } from '#lib/web/params.ts'
import { requireActor } from '#lib/web/session.ts'
import { missingWords } from '#lib/words/call.ts'
import { dayAndClock } from '#lib/words/dates.ts'
import { bestSoFar, callAtWords, DESK, sinceWords } from '#lib/words/desk.ts'
import { answerTitle, optionTitle } from '#lib/words/option.ts'
import { Desk } from '../../_parts/desk.tsx'
import { answerSheet } from '../actions.ts'
import { CallBar } from './_parts/call-bar.tsx'
import { CallForm } from './_parts/call-form.tsx'
import { CautionsFirst } from './_parts/cautions.tsx'
import { Promises } from './_parts/promises.tsx'
import { Ranked } from './_parts/ranked.tsx'
import { RungBack } from './_parts/rung-back.tsx'
import { SameAnimal } from './_parts/same-animal.tsx'
import { SayToFinder } from './_parts/say-to-finder.tsx'
import { Sheet } from './_parts/sheet.tsx'
import { ChangedSince, Shown, StandingAnswer } from './_parts/standing.tsx'
import { Taken } from './_parts/taken.tsx'
import { ToldTwice } from './_parts/told-twice.tsx'
import '../calls.css'

export const metadata: Metadata = { title: DESK.title }

const MS_PER_MINUTE = 60_000

type Props = { readonly params: Promise<{ readonly id: string }> }

export default async function CallPage({ params }: Props) {
  const [actor, { id }] = await Promise.all([requireActor(), params])
  const callId = pageNumber(id)
  const [call, { now, today, zone }, network] = await Promise.all([
    load(readCall(actor, callId)),
    currentDay(),
    currentNetwork(),
  ])
  const situation = { today, isCaught: call.facts.isCaught, hasFinder: call.facts.hasFinder }
  const [outcome, sameCalls] = await Promise.all([findCallOutcome(actor, callId), readSameCalls(actor, call)])
  if (outcome !== undefined && call.state === 'closed') {
    return (
      <Desk current="calls">
        <Taken
          outcome={outcome}
          zone={zone}
          situation={situation}
          asks={await load(readAsksOfCall(actor, callId))}
          now={now}
        />
        <ToldTwice callId={callId} calls={sameCalls} zone={zone} mayTake={may(actor, 'call.take')} />
      </Desk>
    )
  }
  const { facts } = call
  const [answered, offer, { onTheLine, rung }, writers] = await Promise.all([
    answerCall(actor, facts, now),
    offerSheet(actor, facts),
    readCallBacks(actor, callId),
    namesOfWriters(actor, call),
  ])
  const { ranked, missing } = answered
  const mayTake = may(actor, 'option.take')
  const [, second] = ranked?.options ?? []
  const minutes = (now.getTime() - call.openedAt.getTime()) / MS_PER_MINUTE
  const answer = (
    <Answer
      place={
        <>
          {callAtWords(dayAndClock(call.openedAt, zone))}
          <br />
          {sinceWords(minutes)}
        </>
      }
      sentence={ranked === null ? missingWords(missing) : answerTitle(ranked.options[0], today)}
      basis={ranked === null ? undefined : DESK.basis}
    />
  )
  const [first] = ranked?.options ?? []
  const drawing = {
    stamp: crypto.randomUUID(),
    version: call.version,
    standing: answered.standing,
    parts: {
      answer,
      options: <Ranked answered={answered} situation={situation} mayTake={mayTake} />,
      best: first === undefined ? null : bestSoFar(optionTitle(first, today)),
    },
  }
  return (
    <Desk current="calls" skips={[{ href: '#options', text: DESK.skipToOptions }]}>
      <StandingAnswer key={callId} drawing={drawing} writers={writers}>
        <Shown part="answer" />
        <CallForm
          callId={callId}
          base={JSON.stringify(facts)}
          action={answerSheet}
          startsEmpty={facts.animalTyped === ''}
          nextBest={second === undefined ? null : optionTitle(second, today)}
        >
          <div className="call-columns">
            <div className="call-sheet">
              <CautionsFirst
                answered={answered}
                facts={facts}
                authority={{ name: network.authorityName, phone: network.authorityPhone }}
              />
              <SameAnimal calls={sameCalls} zone={zone} mayTake={mayTake} />
              <RungBack rung={rung} zone={zone} />
              <Sheet facts={facts} offer={offer} showsFinder={may(actor, 'finder.read')} />
              <SayToFinder answered={answered} facts={facts} offer={offer} />
              <Promises onTheLine={onTheLine} me={actor.personId} />
            </div>
            <div className="call-options">
              <ChangedSince />
              <Shown part="options" />
            </div>
          </div>
        </CallForm>
        <CallBar hasBest={first !== undefined} mayTake={mayTake} />
      </StandingAnswer>
    </Desk>
  )
}

import type { Metadata } from 'next'
import type { ReactNode } from 'react'
import { ButtonLink } from '#app/_ui/button.tsx'
import { EmptyState, Notice } from '#app/_ui/notice.tsx'
import { IndoorPlan } from '#app/_ui/plan/indoor-plan.tsx'
import { OutdoorPlan } from '#app/_ui/plan/outdoor-plan.tsx'
import { Perches } from '#app/_ui/plan/perch.tsx'
import { Answer, Section } from '#app/_ui/section.tsx'
import type { PersonActor } from '#lib/authz/actor.ts'
import { may } from '#lib/authz/demand.ts'
import { undoLeftMs } from '#lib/domain/undo.ts'
import { readWords } from '#lib/service/centre-word.ts'
import { type Round, readRound } from '#lib/service/round.ts'
import { findOwnTap } from '#lib/service/round-entry.ts'
import { currentNow } from '#lib/web/clock.ts'
import { load } from '#lib/web/load.ts'
import { pageNumber, pageWord } from '#lib/web/params.ts'
import { paths } from '#lib/web/paths.ts'
import { isSharedSession, requireActor } from '#lib/web/session.ts'
import { CENTRE_WORD } from '#lib/words/centre-word.ts'
import { dayAndClock } from '#lib/words/dates.ts'
import { DOOR } from '#lib/words/door.ts'
import { PLAN_WORDS } from '#lib/words/plan.ts'
import { countedWords, ROUND, roundSentence } from '#lib/words/round.ts'
import { doneWords, TAP, takenBackWords } from '#lib/words/round-entry.ts'
import { PAPER } from '#lib/words/round-paper.ts'
import { Desk } from '../../_parts/desk.tsx'
import { CountButton } from '../_parts/count-button.tsx'
import { animalPlace } from '../_parts/places.ts'
import { indoorRooms, outdoorRooms } from '../_parts/plan-rooms.ts'
import { RoundList } from '../_parts/round-list.tsx'
import { RoundQueue } from '../_parts/round-queue.tsx'
import { TakeBack } from '../_parts/take-back.tsx'
import { SharedTablet } from '../_parts/tap-form.tsx'
import { TwoVersions } from '../_parts/two-versions.tsx'
import { WhatWeTake } from '../_parts/what-we-take.tsx'
import '../round.css'

export const metadata: Metadata = { title: ROUND.title }

type Props = {
  readonly params: Promise<{ readonly centreId: string }>
  readonly searchParams: Promise<Record<string, string | string[] | undefined>>
}

export default async function RoundPage({ params, searchParams }: Props) {
  const [actor, { centreId }, query, now] = await Promise.all([
    requireActor(),
    params,
    searchParams,
    currentNow(),
  ])
  const round = await load(readRound(actor, pageNumber(centreId), now))
  const words = await load(readWords(actor, round.centre.id, now))
  const { centre, zone, counts, mayCount, rooms } = round
  const isList = pageWord(query['as']) === 'list'
  const as = isList ? 'list' : ''
  const pageKey = crypto.randomUUID()
  const isShared = await isSharedSession()
  const done = await doneOf(actor, pageWord(query['done']), isShared, now)
  // Whoever walks begins with the first room.
  const take = (
    <WhatWeTake
      centreId={centre.id}
      words={words}
      maySay={may(actor, 'intake.say', { centreIds: [centre.id] })}
      now={now}
      zone={zone}
    />
  )
  return (
    <Desk current="round">
      <Taps isShared={isShared} actor={actor} round={round} now={now}>
        <Answer
          reference={centre.name}
          place={
            <>
              {centre.about}
              <br />
              <a href={paths.round()}>{ROUND.another}</a>
            </>
          }
          sentence={roundSentence(counts)}
          basis={
            <>
              {countedWords(centre.countedAt, now, zone)}. {isList ? '' : PLAN_WORDS.smallRibbons}{' '}
              <a className="round-way" href={paths.round(centre.id, { as: isList ? undefined : 'list' })}>
                {isList ? ROUND.asPlan : ROUND.asList}
              </a>{' '}
              <a className="round-way" href={paths.roundCards(centre.id)}>
                {PAPER.cardsLink}
              </a>{' '}
              <a className="round-way" href={paths.roundSheet(centre.id)}>
                {PAPER.sheetLink}
              </a>
            </>
          }
        >
          {mayCount && (
            <div className="do round-count">
              <CountButton fields={{ key: pageKey, centreId: String(centre.id), as }} />
              <span className="quiet small">{ROUND.asShownNote}</span>
              <ButtonLink href={paths.door(centre.id)}>{DOOR.link}</ButtonLink>
            </div>
          )}
        </Answer>
        {done !== undefined && (
          <TakeBack
            key={done.id}
            sentence={done.sentence}
            leftMs={done.leftMs}
            fields={{ key: pageKey, tap: `undo ${done.id}`, centreId: String(centre.id), as }}
          />
        )}
        {query['done'] === 'arrived' && <Notice kind="done" role="status" sentence={TAP.arrivedDone} />}
        {query['done'] === 'settled' && <Notice kind="done" role="status" sentence={TAP.settled} />}
        {query['done'] === 'said' && <Notice kind="done" role="status" sentence={CENTRE_WORD.said} />}
        {rooms.length === 0 && <EmptyState sentence={ROUND.nothing} coming={ROUND.nothingComing} />}
        <TwoVersions round={round} as={as} />
        {!isList && <Nowhere round={round} now={now} />}
        {!isList && take}
        {isList ? (
          <RoundList round={round} now={now} open={Number(pageWord(query['line']))} pageKey={pageKey} />
        ) : (
          <RoundPlan round={round} now={now} />
        )}
        {isList && take}
      </Taps>
    </Desk>
  )
}

type TapsProps = {
  readonly isShared: boolean
  readonly actor: PersonActor
  readonly round: Round
  readonly now: Date
  readonly children: ReactNode
}

/** A phone of one's own keeps taps; a tablet that several people share keeps nothing and asks who taps. */
function Taps({ isShared, actor, round: { centre, zone }, now, children }: TapsProps) {
  const list = paths.round(centre.id, { as: 'list' })
  if (isShared) return <SharedTablet>{children}</SharedTablet>
  return (
    <RoundQueue
      personId={actor.personId}
      centreId={centre.id}
      drawnAt={dayAndClock(now, zone)}
      signIn={paths.signIn(list)}
      page={list}
    >
      {children}
    </RoundQueue>
  )
}

/** What was tapped a moment ago by her who reads: its words, and for how long taking back is offered. */
async function doneOf(actor: PersonActor, done: string | undefined, isShared: boolean, now: Date) {
  if (done === undefined || !/^\d{1,9}$/.test(done)) return undefined
  const entry = await findOwnTap(actor, Number(done), isShared)
  if (entry === undefined) return undefined
  const leftMs = undoLeftMs(entry.enteredAt, now)
  if (leftMs <= 0) return undefined
  if (entry.said.kind === 'undo') {
    const undone = await findOwnTap(actor, entry.said.entryId, isShared)
    const sentence = undone === undefined ? TAP.takenBack : takenBackWords(undone, entry)
    return { id: entry.id, sentence, leftMs: 0 }
  }
  return { id: entry.id, sentence: doneWords(entry), leftMs: entry.state === 'stands' ? leftMs : 0 }
}

/** On the list, at the line of the animal; whoever only reads goes to its card. */
function hrefsOf({ mayCount, centre }: Round) {
  return ({ id, reference }: { readonly id: number; readonly reference: string }) =>
    mayCount ? `${paths.round(centre.id, { as: 'list', line: id })}#line-${id}` : paths.casualty(reference)
}

type Drawn = { readonly round: Round; readonly now: Date }

/** In the building without an enclosure: first on the round, since each needs a place. */
function Nowhere({ round, now }: Drawn) {
  if (round.nowhere.length === 0) return null
  const places = round.nowhere.map(one => animalPlace(one, { ...round, now, hrefOf: hrefsOf(round) }))
  return (
    <Section id="nowhere" head={ROUND.nowhere} note={ROUND.nowhereNote} strong>
      <div className="wall">
        <div className="cage">
          <Perches places={places} />
        </div>
      </div>
    </Section>
  )
}

function RoundPlan({ round, now }: Drawn) {
  const clock = { today: round.today, zone: round.zone, now, hrefOf: hrefsOf(round) }
  const indoors = indoorRooms(round, clock)
  const outdoors = outdoorRooms(round, clock)
  return (
    <>
      {indoors.length > 0 && (
        <Section
          id="indoors"
          head={ROUND.indoors}
          note={round.mayCount ? ROUND.indoorsNote : undefined}
          strong
        >
          <IndoorPlan rooms={indoors} />
        </Section>
      )}
      {outdoors.length > 0 && (
        <Section id="outdoors" head={ROUND.outdoors} note={ROUND.outdoorsNote}>
          {outdoors.map(room => (
            <section key={room.id} className="room" aria-labelledby={`outdoors-${room.id}`}>
              <div className="room-head">
                <h3 id={`outdoors-${room.id}`} className="title">
                  {room.name}
                </h3>
                <p>{room.summary}</p>
              </div>
              <OutdoorPlan enclosures={room.enclosures} />
            </section>
          ))}
        </Section>
      )}
    </>
  )
}

import type { Metadata } from 'next'
import { ButtonLink } from '#app/_ui/button.tsx'
import { EmptyState, Notice } from '#app/_ui/notice.tsx'
import { IndoorPlan } from '#app/_ui/plan/indoor-plan.tsx'
import { OutdoorPlan } from '#app/_ui/plan/outdoor-plan.tsx'
import { Perches } from '#app/_ui/plan/perch.tsx'
import { Answer, Section } from '#app/_ui/section.tsx'
import { OneButton } from '#app/(desk)/calls/_parts/one-button.tsx'
import { may } from '#lib/authz/demand.ts'
import { readWords } from '#lib/service/centre-word.ts'
import { type Round, readRound } from '#lib/service/round.ts'
import { currentNow } from '#lib/web/clock.ts'
import { load } from '#lib/web/load.ts'
import { pageNumber, pageWord } from '#lib/web/params.ts'
import { paths } from '#lib/web/paths.ts'
import { requireActor } from '#lib/web/session.ts'
import { CENTRE_WORD } from '#lib/words/centre-word.ts'
import { DOOR } from '#lib/words/door.ts'
import { PLAN_WORDS } from '#lib/words/plan.ts'
import { countedWords, ROUND, roundSentence } from '#lib/words/round.ts'
import { Desk } from '../../_parts/desk.tsx'
import { animalPlace } from '../_parts/places.ts'
import { indoorRooms, outdoorRooms } from '../_parts/plan-rooms.ts'
import { RoundTable } from '../_parts/round-table.tsx'
import { WhatWeTake } from '../_parts/what-we-take.tsx'
import { counted } from '../actions.ts'
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
  const isTable = pageWord(query['as']) === 'table'
  return (
    <Desk current="round">
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
            {countedWords(centre.countedAt, now, zone)}. {isTable ? '' : PLAN_WORDS.smallRibbons}{' '}
            <a className="round-way" href={paths.round(centre.id, { as: isTable ? undefined : 'table' })}>
              {isTable ? ROUND.asPlan : ROUND.asTable}
            </a>
          </>
        }
      >
        {mayCount && (
          <div className="do round-count">
            <OneButton
              action={counted}
              text={ROUND.asShown}
              weight="filled"
              fields={{ centreId: String(centre.id), as: isTable ? 'table' : '' }}
            />
            <span className="quiet small">{ROUND.asShownNote}</span>
            <ButtonLink href={paths.door(centre.id)}>{DOOR.link}</ButtonLink>
          </div>
        )}
      </Answer>
      {query['done'] === 'yes' && <Notice kind="done" role="status" sentence={ROUND.done} />}
      {query['done'] === 'said' && <Notice kind="done" role="status" sentence={CENTRE_WORD.said} />}
      {rooms.length === 0 && <EmptyState sentence={ROUND.nothing} coming={ROUND.nothingComing} />}
      <Nowhere round={round} now={now} />
      <WhatWeTake
        centreId={centre.id}
        words={words}
        maySay={may(actor, 'intake.say', { centreIds: [centre.id] })}
        now={now}
        zone={zone}
      />
      {isTable ? <RoundTable round={round} now={now} /> : <RoundPlan round={round} now={now} />}
    </Desk>
  )
}

type Drawn = { readonly round: Round; readonly now: Date }

/** In the building without an enclosure: first on the round, since each needs a place. */
function Nowhere({ round, now }: Drawn) {
  if (round.nowhere.length === 0) return null
  const places = round.nowhere.map(one => animalPlace(one, { ...round, now }))
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
  const clock = { today: round.today, zone: round.zone, now }
  const indoors = indoorRooms(round, clock)
  const outdoors = outdoorRooms(round, clock)
  return (
    <>
      {indoors.length > 0 && (
        <Section id="indoors" head={ROUND.indoors} note={ROUND.indoorsNote} strong>
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

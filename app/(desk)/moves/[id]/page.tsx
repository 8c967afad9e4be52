import type { Metadata } from 'next'
import { Notice } from '#app/_ui/notice.tsx'
import { Answer, Facts, Section } from '#app/_ui/section.tsx'
import { OneButton } from '#app/(desk)/calls/_parts/one-button.tsx'
import { type JourneyPage, type JourneyView, readJourney } from '#lib/service/road.ts'
import { load } from '#lib/web/load.ts'
import { currentDay } from '#lib/web/network.ts'
import { pageNumber, pageWord } from '#lib/web/params.ts'
import { paths } from '#lib/web/paths.ts'
import { requireActor } from '#lib/web/session.ts'
import {
  animalFactWords,
  driverWords,
  journeyBasis,
  journeySentence,
  legPath,
  legStateWords,
  legWords,
  ROAD,
} from '#lib/words/road.ts'
import { Desk } from '../../_parts/desk.tsx'
import { StoppedNotice } from '../../_parts/stopped-notice.tsx'
import { LegActs } from '../_parts/leg-acts.tsx'
import { calledOff, turnedBack } from '../actions.ts'
import '../moves.css'

export const metadata: Metadata = { title: ROAD.title }

type Props = {
  readonly params: Promise<{ readonly id: string }>
  readonly searchParams: Promise<Record<string, string | string[] | undefined>>
}

const DONE: Readonly<Record<string, string>> = { planned: ROAD.done, yes: ROAD.kept }

export default async function JourneyOnePage({ params, searchParams }: Props) {
  const [actor, { id }, query, { now, zone }] = await Promise.all([
    requireActor(),
    params,
    searchParams,
    currentDay(),
  ])
  const page = await load(readJourney(actor, pageNumber(id), now))
  const { journey, stops } = page
  const done = DONE[pageWord(query['done']) ?? '']
  return (
    <Desk current="moves">
      <Answer
        place={<a href={paths.moves()}>{ROAD.back}</a>}
        sentence={journeySentence(journey)}
        basis={journeyBasis(journey)}
      />
      {/* Whoever arranges drives has it above every page. */}
      {!page.mayArrange && stops.map(stop => <StoppedNotice key={stop.stopId} stop={stop} zone={zone} />)}
      {done !== undefined && <Notice kind="done" role="status" sentence={done} />}
      <Legs page={page} now={now} zone={zone} />
      <Who journey={journey} />
      {page.mayArrange && <Ending page={page} />}
    </Desk>
  )
}

type LegsProps = { readonly page: JourneyPage; readonly now: Date; readonly zone: string }

function Legs({ page: { journey, drivers, mayArrange }, now, zone }: LegsProps) {
  return (
    <Section id="legs" head={ROAD.legsHead} note={ROAD.legsNote} strong>
      {journey.legs.map(leg => (
        <div key={leg.id} className="leg-one">
          <h3>
            {legWords(leg.legNo)}: {driverWords(leg)}
          </h3>
          <p>
            {legPath(leg)}: {legStateWords(leg, now, zone)}
            {leg.phone !== null && (
              <>
                . <a href={`tel:${leg.phone.replaceAll(' ', '')}`}>{leg.phone}</a>
              </>
            )}
          </p>
          {mayArrange && <LegActs journey={journey} leg={leg} drivers={drivers} now={now} zone={zone} />}
        </div>
      ))}
      {mayArrange && <p className="quiet small">{ROAD.linkNote}</p>}
    </Section>
  )
}

function Who({ journey }: { readonly journey: JourneyView }) {
  return (
    <Section id="animals" head={ROAD.animals}>
      <Facts
        facts={journey.animals.map(animal => ({
          term: animal.reference,
          value: (
            <>
              <a href={paths.casualty(animal.reference)}>{animal.species}</a>{' '}
              {animalFactWords(animal, journey)}
            </>
          ),
        }))}
      />
      {journey.carry !== '' && <Facts facts={[{ term: ROAD.carry, value: journey.carry }]} />}
    </Section>
  )
}

/** Before anybody set off it is called off; afterwards it turns back. */
function Ending({ page: { journey, isBegun } }: { readonly page: JourneyPage }) {
  const fields = { journeyId: String(journey.id) }
  if (!isBegun) {
    return (
      <Section id="ending" head={ROAD.endHead} note={ROAD.callOffNote}>
        <OneButton action={calledOff} text={ROAD.callOff} fields={fields} />
      </Section>
    )
  }
  if (journey.from === null || journey.turnedAt !== null) return null
  return (
    <Section id="ending" head={ROAD.endHead} note={ROAD.turnNote}>
      <OneButton action={turnedBack} text={ROAD.turn} fields={fields} />
    </Section>
  )
}

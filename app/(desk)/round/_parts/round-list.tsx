import { Fragment } from 'react'
import { Section } from '#app/_ui/section.tsx'
import { checkTaps, outTap, ROUND_ENDINGS } from '#lib/domain/round-entry.ts'
import type { Round, RoundAnimal, RoundEnclosure, RoundRoom } from '#lib/service/round.ts'
import type { LineOfRound } from '#lib/service/round-line.ts'
import { paths } from '#lib/web/paths.ts'
import { dryingWords, freeNote, heldWords, nameRuns, ROUND, shutWords } from '#lib/words/round.ts'
import {
  checkButton,
  checkLine,
  lastWeight,
  movedButton,
  outButton,
  stageButton,
  TAP,
} from '#lib/words/round-entry.ts'
import { shortWords } from '#lib/words/who-is-where.ts'
import { ArrivedForm } from './arrived-form.tsx'
import { untilOf } from './places.ts'
import { type PanelProps, type PlaceGroup, PlacesOfCentre, RoundLine } from './round-line.tsx'

type Props = {
  readonly round: Round
  readonly now: Date
  /** Whose line is open. */
  readonly open: number | undefined
  /** One key a drawing of the page; each tap on it is recorded once. */
  readonly pageKey: string
}

/** The round as one walks it, room by room: who is in and is to be fixed, what is expected, shut, drying or free. */
export function RoundList({ round, ...rest }: Props) {
  return (
    <Section id="list" head={ROUND.list} note={round.mayCount ? ROUND.listNote : undefined} strong>
      <PlacesOfCentre places={placesOf(round)}>
        {round.nowhere.length > 0 && (
          <section className="walk" aria-labelledby="walk-nowhere">
            <h3 id="walk-nowhere">{ROUND.nowhere}</h3>
            <ol>
              {round.nowhere.map(animal => (
                <Animal key={animal.id} animal={animal} round={round} {...rest} />
              ))}
            </ol>
          </section>
        )}
        {round.rooms.map(room => (
          <section key={room.id} className="walk" aria-labelledby={`walk-${room.id}`}>
            <h3 id={`walk-${room.id}`}>{room.name}</h3>
            <ol>
              {runsOf(room).map(run =>
                run.isFree ? (
                  <li key={run.enclosures[0]?.id} className="walk-free">
                    <b>{nameRuns(run.enclosures.map(({ name }) => name))}</b> {freeWords(run.enclosures)}
                  </li>
                ) : (
                  run.enclosures.map(one => (
                    <Enclosure key={one.id} enclosure={one} round={round} {...rest} />
                  ))
                ),
              )}
            </ol>
          </section>
        ))}
      </PlacesOfCentre>
    </Section>
  )
}

function placesOf({ rooms }: Round): PlaceGroup[] {
  return rooms.map(room => ({
    room: room.name,
    places: room.enclosures.map(({ id, name }) => ({ id, name })),
  }))
}

type Run = { readonly isFree: boolean; readonly enclosures: RoundEnclosure[] }

/** Empty neighbours stand on one line; whoever walks past them has nothing to say of each. */
function runsOf({ enclosures }: RoundRoom): Run[] {
  const runs: Run[] = []
  for (const one of enclosures) {
    const isFree = stateOf(one) === 'free'
    const run = runs.at(-1)
    if (run?.isFree === isFree) run.enclosures.push(one)
    else runs.push({ isFree, enclosures: [one] })
  }
  return runs
}

function stateOf(one: RoundEnclosure): 'free' | 'in use' {
  const isUsed = one.inside.length > 0 || one.held.length > 0 || one.closed !== null || one.dryUntil !== null
  return isUsed ? 'in use' : 'free'
}

function freeWords(enclosures: readonly RoundEnclosure[]): string {
  const [first] = enclosures
  const note = enclosures.length === 1 && first !== undefined ? freeNote(first.free, true) : undefined
  return note === undefined ? TAP.free.toLowerCase() : `${TAP.free.toLowerCase()} ${note}`
}

function Enclosure({ enclosure, ...shared }: Props & { readonly enclosure: RoundEnclosure }) {
  const { round, now } = shared
  const { inside, held, closed, dryUntil, free } = enclosure
  const marks = [
    ...(closed === null ? [] : [shutWords(closed.reason, closed.until, round.zone)]),
    ...(dryUntil === null ? [] : [dryingWords(dryUntil, round.zone)]),
    ...(closed !== null || dryUntil !== null || inside.length === 0 || free === 0
      ? []
      : [`${TAP.free.toLowerCase()} ${freeNote(free, false) ?? ''}`.trim()]),
  ]
  return (
    <li className="walk-place" id={`enclosure-${enclosure.id}`}>
      <p className="walk-name">
        <b>{enclosure.name}</b> {marks.join('; ')}
      </p>
      {held.map(hold => (
        <Fragment key={`${hold.reference} ${hold.startsAt.getTime()}`}>
          <p className="walk-held">
            {hold.reference === null ? null : (
              <a href={paths.casualty(hold.reference)}>
                {hold.species} <span className="ref">{hold.reference}</span>
              </a>
            )}{' '}
            {heldWords(hold.expectedAt, hold.startsAt, now, round.zone)}
          </p>
          {round.mayCount && hold.coming !== undefined && (
            <ArrivedForm
              hidden={{
                as: 'list',
                centreId: String(round.centre.id),
                casualtyId: String(hold.coming.casualtyId),
                enclosureId: String(enclosure.id),
                placeNo: hold.coming.placeNo === null ? '' : String(hold.coming.placeNo),
              }}
            />
          )}
        </Fragment>
      ))}
      {inside.length > 0 && (
        <ol>
          {inside.map(animal => (
            <Animal key={animal.id} animal={animal} {...shared} />
          ))}
        </ol>
      )}
    </li>
  )
}

function Animal({ animal, round, open, pageKey }: Props & { readonly animal: RoundAnimal }) {
  const { line, reference } = animal
  const words = (
    <>
      <span>
        {animal.species} <span className="ref">{reference}</span>
      </span>
      <span className="walk-until">
        {untilOf(animal, round.zone)}
        {animal.isAlone && `, ${ROUND.alone}`}
        {line?.isAsked === true && <b className="asked"> {TAP.stillThere}</b>}
        {animal.short !== null && <b className="grave"> {shortWords(animal.short)}</b>}
      </span>
    </>
  )
  if (!round.mayCount || line === undefined) {
    return (
      <li className="walk-animal" id={`line-${animal.id}`}>
        <a className="walk-line" href={paths.casualty(reference)}>
          {words}
        </a>
      </li>
    )
  }
  return (
    <li className="walk-animal" id={`line-${animal.id}`}>
      <RoundLine
        id={animal.id}
        href={`${paths.round(round.centre.id, { as: 'list', line: animal.id })}#line-${animal.id}`}
        startsOpen={open === animal.id}
        note={line.isAsked ? TAP.stillThereNote : undefined}
        words={words}
        panel={panelOf(animal, line, round, pageKey)}
      />
    </li>
  )
}

function panelOf({ id, reference }: RoundAnimal, line: LineOfRound, round: Round, key: string): PanelProps {
  const { centre, zone } = round
  return {
    about: reference,
    card: paths.casualty(reference),
    hidden: {
      key,
      as: 'list',
      centreId: String(centre.id),
      casualtyId: String(id),
      seenKeepingId: String(line.keepingId),
      seenStageNo: line.stageNo === null ? '' : String(line.stageNo),
    },
    checks: line.checks.map(check => ({
      id: check.id,
      text: checkLine(check.slug, check.dueOn),
      taps: checkTaps(check.id, check.slug).map(({ tap, found }) => ({ tap, text: checkButton(found) })),
    })),
    lastWeight: lastWeight(line.grams, line.weighedAt, zone),
    stage:
      line.next === null ? undefined : { tap: `stage ${line.next.no}`, text: stageButton(line.next.stage) },
    best: line.best.map(place => ({ tap: `moved ${place.id}`, text: movedButton(place.name) })),
    out: ROUND_ENDINGS.map(([alive, where]) => ({ tap: outTap(alive, where), text: outButton(where) })),
  }
}

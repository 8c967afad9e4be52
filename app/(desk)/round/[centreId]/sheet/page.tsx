import type { Metadata } from 'next'
import { ButtonLink } from '#app/_ui/button.tsx'
import { Answer } from '#app/_ui/section.tsx'
import { type Round, type RoundAnimal, readRound } from '#lib/service/round.ts'
import { currentNow } from '#lib/web/clock.ts'
import { load } from '#lib/web/load.ts'
import { pageNumber } from '#lib/web/params.ts'
import { paths } from '#lib/web/paths.ts'
import { requireActor } from '#lib/web/session.ts'
import { dryingWords, heldWords, roundSentence, shutWords } from '#lib/words/round.ts'
import { asItStood, mustWords, nextWords, PAPER } from '#lib/words/round-paper.ts'
import { Desk } from '../../../_parts/desk.tsx'
import { untilOf } from '../../_parts/places.ts'
import '../../paper.css'

export const metadata: Metadata = { title: PAPER.sheet }

type Props = { readonly params: Promise<{ readonly centreId: string }> }
type Line = {
  readonly key: string
  readonly place: string
  readonly animal: RoundAnimal | undefined
  readonly words: string
}

/** The round on paper, one page a room or more, for where no screen goes. */
export default async function SheetPage({ params }: Props) {
  const [actor, { centreId }, now] = await Promise.all([requireActor(), params, currentNow()])
  const round = await load(readRound(actor, pageNumber(centreId), now))
  const rooms = [
    ...(round.nowhere.length === 0
      ? []
      : [{ name: PAPER.nowhere, lines: round.nowhere.map(animal => lineOf('', animal, round)) }]),
    ...round.rooms.map(room => ({ name: room.name, lines: linesOf(room, round, now) })),
  ].filter(({ lines }) => lines.length > 0)
  return (
    <Desk current="round">
      <div className="noprint">
        <Answer
          reference={round.centre.name}
          place={PAPER.sheet}
          sentence={roundSentence(round.counts)}
          basis={PAPER.howtoSheet}
        >
          <div className="do">
            <ButtonLink href={paths.round(round.centre.id)}>{PAPER.back}</ButtonLink>
          </div>
        </Answer>
      </div>
      {rooms.map(({ name, lines }) => (
        <section key={name} className="round-sheet">
          <h2>
            {round.centre.name}, {name}
          </h2>
          <p>
            {asItStood(now, round.zone)}. {PAPER.counted} ________ {PAPER.initials} ________
          </p>
          <table>
            <thead>
              <tr>
                {[PAPER.place, PAPER.animal, PAPER.know, PAPER.due, PAPER.done, PAPER.notes].map(head => (
                  <th key={head} scope="col">
                    {head}
                  </th>
                ))}
              </tr>
            </thead>
            <tbody>
              {lines.map(line => (
                <SheetLine key={line.key} line={line} />
              ))}
            </tbody>
          </table>
        </section>
      ))}
    </Desk>
  )
}

function linesOf({ enclosures }: Round['rooms'][number], round: Round, now: Date): Line[] {
  return enclosures.flatMap(one => {
    const words = [
      ...one.held.map(
        hold =>
          `${hold.species ?? ''} ${hold.reference ?? ''}, ${heldWords(hold.expectedAt, hold.startsAt, now, round.zone)}`,
      ),
      ...(one.closed === null ? [] : [shutWords(one.closed.reason, one.closed.until, round.zone)]),
      ...(one.dryUntil === null ? [] : [dryingWords(one.dryUntil, round.zone)]),
    ]
    return [
      ...one.inside.map(animal => lineOf(one.name, animal, round)),
      ...words.map(said => ({
        key: `${one.id} ${said}`,
        place: one.name,
        animal: undefined,
        words: said.trim(),
      })),
    ]
  })
}

function lineOf(place: string, animal: RoundAnimal, { zone }: Round): Line {
  return { key: `animal ${animal.id}`, place, animal, words: untilOf(animal, zone) }
}

function SheetLine({ line: { place, animal, words } }: { readonly line: Line }) {
  const musts =
    animal === undefined ? [] : mustWords({ ...animal, isSuspect: animal.line?.isSuspect === true })
  return (
    <tr>
      <th scope="row">{place}</th>
      <td>
        {animal !== undefined && (
          <>
            <b>{animal.reference}</b> {animal.species},{' '}
          </>
        )}
        {words}
      </td>
      <td>{musts.join('. ')}</td>
      <td>{animal?.line?.checks.map(nextWords).join(', ')}</td>
      <td className="tick-box">{animal !== undefined && <span className="box" aria-hidden="true" />}</td>
      <td />
    </tr>
  )
}

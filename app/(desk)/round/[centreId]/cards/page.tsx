import type { Metadata } from 'next'
import { ButtonLink } from '#app/_ui/button.tsx'
import { EmptyState } from '#app/_ui/notice.tsx'
import { QrCode } from '#app/_ui/qr.tsx'
import { SmallRibbon } from '#app/_ui/ribbon/stay-ribbon.tsx'
import { Answer } from '#app/_ui/section.tsx'
import { type Round, type RoundAnimal, readRound } from '#lib/service/round.ts'
import { currentNow } from '#lib/web/clock.ts'
import { casualtyUrl } from '#lib/web/link-url.ts'
import { load } from '#lib/web/load.ts'
import { pageNumber, pageWord } from '#lib/web/params.ts'
import { paths } from '#lib/web/paths.ts'
import { requireActor } from '#lib/web/session.ts'
import { animalsWords } from '#lib/words/round.ts'
import { asItStood, mustWords, nextWords, PAPER, paperStage, qrLabel } from '#lib/words/round-paper.ts'
import { Desk } from '../../../_parts/desk.tsx'
import { untilOf } from '../../_parts/places.ts'
import '../../paper.css'

export const metadata: Metadata = { title: PAPER.cards }

type Props = {
  readonly params: Promise<{ readonly centreId: string }>
  readonly searchParams: Promise<Record<string, string | string[] | undefined>>
}

/** A card a cage for every animal of a centre, or for one. */
export default async function CardsPage({ params, searchParams }: Props) {
  const [actor, { centreId }, query, now] = await Promise.all([
    requireActor(),
    params,
    searchParams,
    currentNow(),
  ])
  const round = await load(readRound(actor, pageNumber(centreId), now))
  const wanted = pageWord(query['animal'])
  const cards = cardsOf(round).filter(({ animal }) => wanted === undefined || animal.reference === wanted)
  return (
    <Desk current="round">
      <div className="noprint">
        <Answer
          reference={round.centre.name}
          place={PAPER.cards}
          sentence={animalsWords(cards.length)}
          basis={PAPER.howto}
        >
          <div className="do">
            <ButtonLink href={paths.round(round.centre.id)}>{PAPER.back}</ButtonLink>
          </div>
        </Answer>
      </div>
      {cards.length === 0 && <EmptyState sentence={PAPER.nobody} coming={PAPER.nobodyComing} />}
      {cards.map(({ animal, place }) => (
        <Card key={animal.id} animal={animal} place={place} round={round} now={now} />
      ))}
    </Desk>
  )
}

type CardOf = { readonly animal: RoundAnimal; readonly place: string }

function cardsOf({ rooms, nowhere }: Round): CardOf[] {
  return [
    ...rooms.flatMap(room =>
      room.enclosures.flatMap(one => one.inside.map(animal => ({ animal, place: one.name }))),
    ),
    ...nowhere.map(animal => ({ animal, place: PAPER.nowhere })),
  ]
}

type CardProps = CardOf & { readonly round: Round; readonly now: Date }

function Card({ animal, place, round, now }: CardProps) {
  const { reference, species, ahead, line } = animal
  const musts = mustWords({ ...animal, isSuspect: line?.isSuspect === true })
  return (
    <article className="cage-card" aria-label={reference}>
      <header>
        <p className="card-ref">{reference}</p>
        <p className="card-place">{place}</p>
        <p>
          {species}
          {line?.stage != null && `, ${paperStage(line.stage).toLowerCase()}`}
        </p>
      </header>
      <QrCode text={casualtyUrl(reference)} label={qrLabel(reference)} />
      {musts.length > 0 && <p className="card-must">{musts.join('. ')}</p>}
      <dl>
        <dt>{PAPER.next}</dt>
        <dd>{line?.checks.map(nextWords).join(', ')}</dd>
        <dt>{PAPER.until}</dt>
        <dd>{untilOf(animal, round.zone)}</dd>
      </dl>
      {ahead !== undefined && (
        <SmallRibbon data={{ ...ahead, groundByDay: [], todayDay: round.today, checks: [] }} />
      )}
      <p className="card-lines">{PAPER.weights}</p>
      <p className="card-foot">
        {round.centre.name}. {asItStood(now, round.zone)}
      </p>
    </article>
  )
}

import type { Metadata } from 'next'
import { ButtonLink } from '#app/_ui/button.tsx'
import { Notice } from '#app/_ui/notice.tsx'
import { Answer } from '#app/_ui/section.tsx'
import type { CasualtyCard } from '#lib/service/casualty.ts'
import { readCasualty } from '#lib/service/casualty.ts'
import { currentNow } from '#lib/web/clock.ts'
import { load } from '#lib/web/load.ts'
import { pageWord } from '#lib/web/params.ts'
import { paths } from '#lib/web/paths.ts'
import { requireActor } from '#lib/web/session.ts'
import { misfitWords } from '#lib/words/care.ts'
import { againstWords, animalLine, brokenWords, CARD, cardBasis, outBetween } from '#lib/words/casualty.ts'
import { CHANGE, doneWords } from '#lib/words/casualty-change.ts'
import { cautionWords } from '#lib/words/caution.ts'
import { DISPLACED, displacedWords } from '#lib/words/check.ts'
import { LICENCE } from '#lib/words/licence.ts'
import { RELEASE } from '#lib/words/release.ts'
import { placeWords, shortWords } from '#lib/words/who-is-where.ts'
import { Desk } from '../../_parts/desk.tsx'
import { CardAsks } from './_parts/asks.tsx'
import { AsksAbout } from './_parts/asks-about.tsx'
import { Before } from './_parts/before.tsx'
import { Change } from './_parts/change.tsx'
import { Companions } from './_parts/companions.tsx'
import { Due } from './_parts/due.tsx'
import { CardFacts } from './_parts/facts.tsx'
import { CardHappened } from './_parts/happened.tsx'
import { LostWithEnd, PlaceGiven, ShortKept } from './_parts/late.tsx'
import { CardPictures } from './_parts/pictures.tsx'
import { Plan } from './_parts/plan.tsx'
import { CardRoad } from './_parts/road.tsx'
import { sentenceOf } from './_parts/sentence.ts'
import { Stay } from './_parts/stay.tsx'
import { Weights } from './_parts/weights.tsx'
import '../casualties.css'
import '../card.css'

type Props = {
  readonly params: Promise<{ readonly reference: string }>
  readonly searchParams: Promise<Record<string, string | string[] | undefined>>
}

export async function generateMetadata({ params }: Props): Promise<Metadata> {
  return { title: decodeURIComponent((await params).reference) }
}

export default async function CasualtyPage({ params, searchParams }: Props) {
  const [actor, { reference }, query, now] = await Promise.all([
    requireActor(),
    params,
    searchParams,
    currentNow(),
  ])
  const to = pageWord(query['to'])
  const card = await load(readCasualty(actor, decodeURIComponent(reference), { to }, now))
  const done = doneWords(pageWord(query['done']))
  const last = card.ahead?.stages.at(-1)
  const isOpen = card.now.keeper !== 'nobody'
  return (
    <Desk current="who-is-where">
      <Answer
        reference={card.head.reference}
        place={
          <>
            {animalLine(card.species.common_name, card.head.age)}
            <br />
            <a href={paths.casualties()}>{CARD.backToList}</a>
          </>
        }
        sentence={sentenceOf(card)}
        basis={cardBasis(
          placeWords(card.now),
          card.now.room,
          isOpen && last !== undefined ? outBetween(last.end.q10, last.end.median, last.end.q90) : null,
        )}
      />
      {done !== undefined && <Notice kind="done" role="status" sentence={done} />}
      <Flags card={card} />
      <AsksAbout card={card} />
      <Stay card={card} />
      {isOpen && <Due card={card} />}
      <CardAsks actor={actor} card={card} now={now} />
      <CardRoad actor={actor} card={card} now={now} />
      <div className={isOpen ? 'card-two' : undefined}>
        {isOpen && <Before card={card} />}
        <CardFacts card={card} />
      </div>
      <Companions card={card} />
      <Weights card={card} />
      <Plan card={card} />
      <CardPictures actor={actor} card={card} />
      <CardHappened card={card} />
      <Change card={card} isChoosingCentre={to !== undefined} left={pageWord(query['left'])} />
    </Desk>
  )
}

/** Opens the list of enclosures of the centre it is at. */
function MoveLink({ card }: { readonly card: CasualtyCard }) {
  const to = card.places?.centreId ?? undefined
  return (
    <ButtonLink weight="plain" href={`${paths.casualty(card.head.reference, { to })}#move`}>
      {CARD.shortTodo}
    </ButtonLink>
  )
}

/** Promises that the newest check which was not passed took away or moved, while one of them is not made good. */
function Gone({ card }: { readonly card: CasualtyCard }) {
  const [first] = card.displaced
  const gone = card.displaced.filter(one => one.checkId === first?.checkId)
  if (!gone.some(one => one.isOpen)) return null
  return (
    <Notice
      kind="just-taken"
      sentence={DISPLACED.head}
      kept={
        <>
          {gone.map(one => (
            <span key={`${one.reference} ${one.enclosure} ${one.wasAt.getTime()}`} className="sub">
              {displacedWords(one, card.zone)}
            </span>
          ))}
          <span className="sub">{DISPLACED.next}</span>
        </>
      }
      todo={gone
        .filter(one => one.isOpen && !one.isItself)
        .map(one => (
          <ButtonLink key={one.reference} weight="plain" href={paths.casualty(one.reference)}>
            {one.reference}
          </ButtonLink>
        ))}
    />
  )
}

/** What is wrong with how things are, and what to mind at the cage. */
function Flags({ card }: { readonly card: CasualtyCard }) {
  const { now, broken, cautions, misfits } = card
  return (
    <>
      {now.short !== null && (
        <Notice
          kind="check-this"
          sentence={shortWords(now.short)}
          kept={<ShortKept card={card} />}
          todo={card.can.record ? <MoveLink card={card} /> : undefined}
        />
      )}
      <PlaceGiven card={card} />
      <LostWithEnd card={card} />
      {now.short === null && misfits.length > 0 && (
        <Notice
          kind="mind"
          sentence={CARD.misfit}
          kept={misfits.map(one => misfitWords(one, () => CHANGE.itsKind)).join('. ')}
          todo={card.can.record ? <MoveLink card={card} /> : undefined}
        />
      )}
      {now.outcome === 'released' && card.release.against.length > 0 && (
        <Notice kind="mind" sentence={RELEASE.flagged} kept={card.release.against.join('. ')} />
      )}
      {card.unauthorised !== undefined && (
        <Notice
          kind="mind"
          sentence={LICENCE.unauthorised}
          kept={`${card.unauthorised}. ${LICENCE.unauthorisedKept}`}
          todo={card.can.record ? <MoveLink card={card} /> : undefined}
        />
      )}
      {now.againstRule.map(because => (
        <Notice key={because} kind="mind" sentence={againstWords(because)} />
      ))}
      <Gone card={card} />
      {broken.map(one => (
        <Notice
          key={one.reference}
          kind="just-taken"
          sentence={CARD.broken}
          kept={brokenWords(one)}
          todo={
            <ButtonLink weight="plain" href={paths.casualty(one.reference)}>
              {one.reference}
            </ButtonLink>
          }
        />
      ))}
      {now.keeper !== 'nobody' &&
        cautions.card
          .filter(caution => caution.id !== 'licence')
          .map(caution => {
            const { head, say, mark } = cautionWords(caution)
            return (
              <Notice
                key={caution.id}
                kind="mind"
                sentence={head}
                kept={
                  <>
                    {say} <small>{mark}</small>
                  </>
                }
              />
            )
          })}
    </>
  )
}

import { ButtonLink } from '#app/_ui/button.tsx'
import { Section } from '#app/_ui/section.tsx'
import type { PersonActor } from '#lib/authz/actor.ts'
import { may } from '#lib/authz/demand.ts'
import type { CasualtyCard } from '#lib/service/casualty.ts'
import { readJourneyOf } from '#lib/service/road.ts'
import { load } from '#lib/web/load.ts'
import { paths } from '#lib/web/paths.ts'
import { driverWords, journeyBasis, legPath, legStateWords, MOVES, ROAD } from '#lib/words/road.ts'

type Props = { readonly actor: PersonActor; readonly card: CasualtyCard; readonly now: Date }

/** The journey it is on, or the way to plan one. */
export async function CardRoad({ actor, card, now }: Props) {
  if (card.now.keeper === 'nobody') return null
  const journey = await load(readJourneyOf(actor, card.head.id))
  if (journey === undefined) {
    if (!may(actor, 'move.arrange')) return null
    return (
      <Section id="road" head={MOVES.roadHead}>
        <ButtonLink href={paths.planMove(card.head.reference)}>{ROAD.plan}</ButtonLink>
      </Section>
    )
  }
  return (
    <Section id="road" head={MOVES.roadHead} note={journeyBasis(journey)}>
      <ol className="shown">
        {journey.legs
          .filter(({ state }) => state !== 'called-off')
          .map(leg => (
            <li key={leg.id}>
              {driverWords(leg)}, {legPath(leg)}: {legStateWords(leg, now, card.zone)}
            </li>
          ))}
      </ol>
      {may(actor, 'move.read') && (
        <p>
          <ButtonLink href={paths.journey(journey.id)}>{MOVES.open}</ButtonLink>
        </p>
      )}
    </Section>
  )
}

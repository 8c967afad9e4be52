import { z } from 'zod'
import { ButtonLink } from '#app/_ui/button.tsx'
import { Section } from '#app/_ui/section.tsx'
import { Act } from '#app/(desk)/casualties/_parts/act.tsx'
import { proposed } from '#app/(desk)/moves/actions.ts'
import type { PersonActor } from '#lib/authz/actor.ts'
import { may } from '#lib/authz/demand.ts'
import { localDateTimeText } from '#lib/domain/text.ts'
import type { CasualtyCard } from '#lib/service/casualty.ts'
import { readJourneyOf } from '#lib/service/road.ts'
import { load } from '#lib/web/load.ts'
import { paths } from '#lib/web/paths.ts'
import { driverWords, journeyBasis, legPath, legStateWords, MOVES, ROAD } from '#lib/words/road.ts'
import { TRANSFER } from '#lib/words/transfer.ts'

const MS_PER_DAY = 86_400_000

type Props = { readonly actor: PersonActor; readonly card: CasualtyCard; readonly now: Date }

/** The journey it is on, or the way to plan one. */
export async function CardRoad({ actor, card, now }: Props) {
  if (card.now.keeper === 'nobody') return null
  const journey = await load(readJourneyOf(actor, card.head.id))
  if (journey === undefined) {
    if (!may(actor, 'move.arrange')) return null
    return (
      <Section id="road" head={MOVES.roadHead}>
        <div className="acts">
          <ButtonLink href={paths.planMove(card.head.reference)}>{ROAD.plan}</ButtonLink>
          {card.now.keeper === 'centre' && <ByHand card={card} now={now} />}
        </div>
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

/** A move to another centre that nobody but a person thought of. */
function ByHand({ card, now }: Pick<Props, 'card' | 'now'>) {
  const centres = (card.places?.centres ?? []).filter(({ name }) => name !== card.now.centre)
  const tomorrow = new Date(now.getTime() + MS_PER_DAY)
  return (
    <Act
      id="propose"
      action={proposed}
      title={TRANSFER.byHandTitle}
      submit={TRANSFER.propose}
      hidden={{ casualtyId: String(card.head.id) }}
      fields={[
        {
          kind: 'select',
          name: 'toCentreId',
          label: TRANSFER.centre,
          none: TRANSFER.chooseCentre,
          options: centres.map(({ id, name }) => ({ value: String(id), text: name })),
        },
        {
          kind: 'time',
          name: 'expectedAt',
          label: TRANSFER.when,
          hint: TRANSFER.whenHint,
          start: z.encode(localDateTimeText(card.zone), tomorrow),
        },
      ]}
    />
  )
}

import { Section } from '#app/_ui/section.tsx'
import { AskLines } from '#app/(desk)/asks/_parts/ask-lines.tsx'
import { referred } from '#app/(desk)/asks/actions.ts'
import { Act } from '#app/(desk)/casualties/_parts/act.tsx'
import { may } from '#lib/authz/demand.ts'
import { readAsksOfCasualty } from '#lib/service/ask.ts'
import type { CasualtyCard } from '#lib/service/casualty.ts'
import { readReferralForm } from '#lib/service/referral.ts'
import { load } from '#lib/web/load.ts'
import { ASK } from '#lib/words/ask.ts'
import { hiddenOf } from './act-fields.ts'

type Props = {
  readonly actor: Parameters<typeof readAsksOfCasualty>[0]
  readonly card: CasualtyCard
  readonly now: Date
}

/** Who was asked about it and what they said; the form that puts it to a practice. */
export async function CardAsks({ actor, card, now }: Props) {
  const asks = await load(readAsksOfCasualty(actor, card.head.id))
  const isOpen = card.now.keeper !== 'nobody'
  const mayPut = isOpen && may(actor, 'ask.put')
  if (asks.length === 0 && !mayPut) return null
  return (
    <Section id="asks" head={ASK.card} note={ASK.referNote}>
      {asks.length > 0 && (
        <AskLines
          asks={asks}
          caption={ASK.card}
          isAboutOne
          empty={{ sentence: ASK.nobodyAsked, coming: ASK.nobodyAskedComing }}
          now={now}
          zone={card.zone}
        />
      )}
      {mayPut && <Refer actor={actor} card={card} now={now} />}
    </Section>
  )
}

async function Refer({ actor, card, now }: Props) {
  const { practices, centres, start } = await load(readReferralForm(actor, card.head.id, now))
  return (
    <Act
      id="refer"
      action={referred}
      title={ASK.refer}
      submit={ASK.put}
      hidden={hiddenOf(card)}
      fields={[
        {
          kind: 'select',
          name: 'practiceId',
          label: ASK.practice,
          options: practices.map(({ id, text }) => ({ value: String(id), text })),
          start: practices[0] === undefined ? '' : String(practices[0].id),
        },
        { kind: 'words', name: 'what', label: ASK.what, start: start.what },
        {
          kind: 'select',
          name: 'homeCentreId',
          label: ASK.home,
          none: ASK.noHome,
          options: centres.map(({ id, name }) => ({ value: String(id), text: name })),
          start: start.homeCentreId === null ? '' : String(start.homeCentreId),
        },
        { kind: 'words', name: 'offers', label: ASK.offers, hint: ASK.offersHint, start: start.offers },
      ]}
    />
  )
}

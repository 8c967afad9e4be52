import type { CallFacts } from '#lib/domain/call-facts.ts'
import { isBat } from '#lib/domain/caution.ts'
import type { SheetOffer } from '#lib/service/call-sheet.ts'
import type { Answered } from '#lib/service/option.ts'
import { finderSteps } from '#lib/words/call.ts'
import { DESK } from '#lib/words/desk.ts'
import { CautionsAfter } from './cautions.tsx'

/** From this size rank on nobody picks it up without knowing how. */
const LARGE_FROM_RANK = 8

type Props = { readonly answered: Answered; readonly facts: CallFacts; readonly offer: SheetOffer }

/** What to tell the finder while the box waits. */
export function SayToFinder({ answered, facts, offer }: Props) {
  const steps = finderSteps({
    isBat: isBat(offer.species),
    isLarge: (offer.species?.size_rank ?? 0) >= LARGE_FROM_RANK && facts.age !== 'young',
    isCaught: facts.isCaught,
  })
  return (
    <section aria-labelledby="say-head" className="say-to-finder">
      <h2 id="say-head">{DESK.sayToFinder}</h2>
      <ul>
        {steps.map(step => (
          <li key={step}>{step}</li>
        ))}
      </ul>
      <CautionsAfter answered={answered} />
    </section>
  )
}

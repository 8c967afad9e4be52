import { Notice } from '#app/_ui/notice.tsx'
import { OneButton } from '#app/(desk)/calls/_parts/one-button.tsx'
import type { CasualtyCard } from '#lib/service/casualty.ts'
import { OVERWINTER, overwinterWords, unlikelyWords, WEIGHTS } from '#lib/words/season.ts'
import { overwintered, weightAnswered } from '../../actions.ts'
import { hiddenOf } from './act-fields.ts'

/** What the card asks of whoever looks at it: an unlikely weight, a winter that it is too light for. */
export function AsksAbout({ card }: { readonly card: CasualtyCard }) {
  const { doubt, lastWeight, overwinter, can } = card
  const hidden = hiddenOf(card)
  return (
    <>
      {doubt !== undefined && lastWeight !== undefined && (
        <Notice
          kind="check-this"
          sentence={unlikelyWords(lastWeight.grams, doubt)}
          kept={WEIGHTS.kept}
          todo={
            can.record
              ? (['yes', 'no'] as const).map(isSure => (
                  <OneButton
                    key={isSure}
                    action={weightAnswered}
                    text={isSure === 'yes' ? WEIGHTS.sure : WEIGHTS.takeBack}
                    weight="plain"
                    fields={{ ...hidden, weightId: String(lastWeight.id), isSure }}
                  />
                ))
              : undefined
          }
        />
      )}
      {overwinter !== undefined && (
        <Notice
          kind="mind"
          sentence={overwinterWords(overwinter)}
          kept={overwinter.kind === 'weigh' ? undefined : OVERWINTER.next}
          todo={
            can.revise && overwinter.kind === 'too light' ? (
              <OneButton action={overwintered} text={OVERWINTER.add} weight="plain" fields={hidden} />
            ) : undefined
          }
        />
      )}
    </>
  )
}

import { OneButton } from '#app/(desk)/calls/_parts/one-button.tsx'
import { Act } from '#app/(desk)/casualties/_parts/act.tsx'
import { dayOfInstant } from '#lib/domain/day.ts'
import { WORD_UNITS } from '#lib/domain/vet-word.ts'
import type { CasualtyCard } from '#lib/service/casualty.ts'
import { CHANGE } from '#lib/words/casualty-change.ts'
import { unitChoice, VET_WORD, VET_WORD_LEANS, vetWordSentence } from '#lib/words/vet-word.ts'
import { vetSaid, vetWordTakenBack } from '../../actions.ts'
import { hiddenOf, whenFields } from './act-fields.ts'

type Props = { readonly card: CasualtyCard }

/** What a vet said last of the stage it is in, and whether the dates go by it. */
export function VetWord({ card }: Props) {
  const { vetWord, zone, can, now } = card
  if (vetWord === undefined || now.keeper === 'nobody') return null
  return (
    <div className="vet-word">
      <p>
        {vetWordSentence(vetWord, dayOfInstant(vetWord.at, zone))}{' '}
        {vetWord.counts ? VET_WORD_LEANS : VET_WORD.outdated}
      </p>
      {can.revise && (
        <OneButton
          action={vetWordTakenBack}
          text={VET_WORD.takeBack}
          weight="plain"
          fields={{ ...hiddenOf(card), wordId: String(vetWord.id) }}
        />
      )}
    </div>
  )
}

/** The form; once it is ready to leave its stage there is nothing left to wait for. */
export function VetSays({ card }: Props) {
  const { stageNow } = card
  if (stageNow === undefined || stageNow.beganOn === null || stageNow.readyAt !== null) return null
  return (
    <Act
      id="vet-says"
      action={vetSaid}
      title={VET_WORD.record}
      submit={CHANGE.record}
      hidden={{ ...hiddenOf(card), stageNo: String(stageNow.stage.no) }}
      notes={[VET_WORD.note]}
      fields={[
        {
          kind: 'two',
          name: 'how-long',
          legend: VET_WORD.legend,
          fields: [
            { kind: 'number', name: 'longer', label: VET_WORD.longer },
            {
              kind: 'select',
              name: 'unit',
              label: VET_WORD.unit,
              start: 'days',
              options: WORD_UNITS.map(value => ({ value, text: unitChoice(value) })),
            },
          ],
        },
        { kind: 'text', name: 'saidBy', label: VET_WORD.saidBy, hint: VET_WORD.saidByHint },
        ...whenFields('at'),
      ]}
    />
  )
}

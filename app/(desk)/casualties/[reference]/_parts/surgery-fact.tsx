import type { Fact } from '#app/_ui/section.tsx'
import { OneButton } from '#app/(desk)/calls/_parts/one-button.tsx'
import { Act } from '#app/(desk)/casualties/_parts/act.tsx'
import type { FieldSpec } from '#app/(desk)/casualties/_parts/field-spec.ts'
import { IMPLANTS, SIDES } from '#lib/domain/surgery.ts'
import type { CasualtyCard } from '#lib/service/casualty.ts'
import { CHANGE } from '#lib/words/casualty-change.ts'
import { implantName, implantWords, operatedWords, SURGERY, sideWords } from '#lib/words/check.ts'
import { operated, operationTakenBack } from '../../actions.ts'
import { hiddenOf, whenFields } from './act-fields.ts'

/** Operations as recorded by hand, and what is left of them in the animal. */
export function surgeryFact(card: CasualtyCard): Fact {
  const { surgeries, implants, zone, can, now } = card
  const hidden = hiddenOf(card)
  const mayChange = can.revise && now.keeper !== 'nobody'
  return {
    term: SURGERY.term,
    value: (
      <>
        {surgeries.length === 0 && SURGERY.none}
        {surgeries.map(one => (
          <span key={one.id} className="licence">
            {operatedWords(one, zone)}
            {implants
              .filter(({ surgeryId }) => surgeryId === one.id)
              .map(implant => (
                <span key={implant.id} className={implant.state === 'in place' ? 'sub grave' : 'sub'}>
                  {implantWords(implant)}
                </span>
              ))}
            {mayChange && (
              <OneButton
                action={operationTakenBack}
                text={SURGERY.takeBack}
                weight="plain"
                fields={{ ...hidden, surgeryId: String(one.id) }}
              />
            )}
          </span>
        ))}
        {mayChange && (
          <Act
            id="operate"
            action={operated}
            title={SURGERY.record}
            submit={CHANGE.record}
            hidden={hidden}
            fields={surgeryFields()}
          />
        )}
      </>
    ),
  }
}

function surgeryFields(): FieldSpec[] {
  return [
    { kind: 'text', name: 'what', label: SURGERY.what, hint: SURGERY.whatHint },
    {
      kind: 'one',
      name: 'side',
      label: SURGERY.side,
      columns: 'row',
      choices: SIDES.map(value => ({ value, label: sideWords(value) })),
    },
    {
      kind: 'many',
      name: 'implants[]',
      label: SURGERY.implants,
      columns: 2,
      choices: IMPLANTS.map(value => ({ value, label: implantName(value) })),
    },
    ...whenFields('at'),
  ]
}

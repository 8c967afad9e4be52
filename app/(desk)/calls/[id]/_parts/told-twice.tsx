import { Section } from '#app/_ui/section.tsx'
import type { SameCalls } from '#lib/service/same-animal.ts'
import { paths } from '#lib/web/paths.ts'
import { clockTime } from '#lib/words/dates.ts'
import { DESK, knownLine, togetherWords } from '#lib/words/desk.ts'
import { OneButton } from '../../_parts/one-button.tsx'
import { toldApart } from '../../actions.ts'

type Props = {
  readonly callId: number
  readonly calls: SameCalls
  readonly zone: string
  readonly mayTake: boolean
}

/** Under an answered call: the other calls about the same animal, and the way to take that back. */
export function ToldTwice({ callId, calls, zone, mayTake }: Props) {
  if (calls.same.length === 0) return null
  return (
    <Section id="same" head={DESK.sameTogether}>
      <ul className="ruled-out">
        {calls.same.map(({ call, said }) => (
          <li key={call.id}>
            <a href={paths.call(call.id)}>
              {knownLine({
                animal: call.facts.animalTyped,
                where: call.facts.whereTyped,
                wrong: call.facts.wrongTyped,
              })}
            </a>
            {said !== undefined && (
              <p className="hint">{togetherWords({ by: said.by, at: clockTime(said.at, zone) })}</p>
            )}
            {mayTake && said !== undefined && (
              <OneButton
                action={toldApart}
                weight="plain"
                text={DESK.apart}
                fields={{ callId: String(callId), otherId: String(call.id) }}
              />
            )}
          </li>
        ))}
      </ul>
    </Section>
  )
}

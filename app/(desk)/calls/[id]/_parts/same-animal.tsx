import { Button } from '#app/_ui/button.tsx'
import type { SameCalls } from '#lib/service/same-animal.ts'
import { paths } from '#lib/web/paths.ts'
import { clockTime } from '#lib/words/dates.ts'
import { DESK, knownLine, togetherWords, toldByWords } from '#lib/words/desk.ts'

type Props = { readonly calls: SameCalls; readonly zone: string; readonly mayTake: boolean }

/** Inside the form of the call, so that either answer keeps what is typed. */
export function SameAnimal({ calls, zone, mayTake }: Props) {
  const { suspects, same } = calls
  if (suspects.length === 0 && same.length === 0) return null
  return (
    <section className="same-animal" aria-labelledby="same-head">
      <h2 id="same-head">{suspects.length > 0 ? DESK.sameHead : DESK.sameTogether}</h2>
      {suspects.length > 0 && <p className="hint">{DESK.sameNote}</p>}
      <ul>
        {suspects.map(call => (
          <li key={call.id}>
            <OneCall call={call} zone={zone} />
            {mayTake && (
              <div className="do">
                <Button name="same" value={call.id}>
                  {DESK.same}
                </Button>
                <Button name="apart" value={call.id} weight="plain">
                  {DESK.notSame}
                </Button>
              </div>
            )}
          </li>
        ))}
        {same.map(({ call, said }) => (
          <li key={call.id}>
            <OneCall call={call} zone={zone} />
            {said !== undefined && (
              <p className="hint">{togetherWords({ by: said.by, at: clockTime(said.at, zone) })}</p>
            )}
            {mayTake && said !== undefined && (
              <Button name="apart" value={call.id} weight="plain">
                {DESK.apart}
              </Button>
            )}
          </li>
        ))}
      </ul>
    </section>
  )
}

type Call = SameCalls['suspects'][number]

function OneCall({ call, zone }: { readonly call: Call; readonly zone: string }) {
  const { animalTyped, whereTyped, wrongTyped } = call.facts
  return (
    <p>
      <a href={paths.call(call.id)}>
        {knownLine({ animal: animalTyped, where: whereTyped, wrong: wrongTyped })}
      </a>
      <br />
      {toldByWords({ by: call.openedBy, at: clockTime(call.openedAt, zone) })}
    </p>
  )
}

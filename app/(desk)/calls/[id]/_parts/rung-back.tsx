import type { readCallBacks } from '#lib/service/call.ts'
import { dayAndClock } from '#lib/words/dates.ts'
import { DESK, rungWords } from '#lib/words/desk.ts'

type Props = {
  readonly rung: Awaited<ReturnType<typeof readCallBacks>>['rung']
  readonly zone: string
}

/** What was said when somebody rang back. */
export function RungBack({ rung, zone }: Props) {
  if (rung.length === 0) return null
  return (
    <section aria-labelledby="rung-head">
      <h2 id="rung-head">{DESK.saidHead}</h2>
      <ul className="rung">
        {rung.map(one => (
          <li key={one.id}>{rungWords({ ...one, at: dayAndClock(one.at, zone) })}</li>
        ))}
      </ul>
    </section>
  )
}

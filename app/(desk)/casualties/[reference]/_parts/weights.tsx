import { Section } from '#app/_ui/section.tsx'
import { AsTable, DataTable } from '#app/_ui/table.tsx'
import { dayOfInstant } from '#lib/domain/day.ts'
import type { CasualtyCard } from '#lib/service/casualty.ts'
import { capital } from '#lib/words/capital.ts'
import { gramsWords } from '#lib/words/casualty-happened.ts'
import { shortDate, whenWords } from '#lib/words/dates.ts'
import { WEIGHTS, weightsSentence } from '#lib/words/season.ts'
import '../../weights.css'

type Weight = CasualtyCard['weights'][number]

/** Every weight that stands, as a drawn line and as a table; one alone draws no line. */
export function Weights({ card }: { readonly card: CasualtyCard }) {
  const { weights, zone } = card
  const [first, last] = [weights[0], weights.at(-1)]
  if (first === undefined || last === undefined || weights.length < 2) return null
  const day = ({ at }: Weight) => shortDate(dayOfInstant(at, zone))
  const said = weightsSentence({ grams: first.grams, day: day(first) }, { grams: last.grams, day: day(last) })
  return (
    <Section id="weights" head={WEIGHTS.head}>
      <figure className="weights">
        <figcaption>{said}</figcaption>
        <Line weights={weights} />
        <p className="weights-days" aria-hidden="true">
          <span>{day(first)}</span>
          <span>{day(last)}</span>
        </p>
      </figure>
      <AsTable label={WEIGHTS.asTable}>
        <DataTable
          caption={WEIGHTS.head}
          hideCaption
          rows={[...weights].reverse()}
          keyOf={weight => String(weight.id)}
          columns={[
            {
              key: 'day',
              head: WEIGHTS.day,
              isRowHead: true,
              cell: one => capital(whenWords(one.at, one.within, zone)),
            },
            { key: 'grams', head: WEIGHTS.grams, right: true, cell: one => gramsWords(one.grams) },
          ]}
        />
      </AsTable>
    </Section>
  )
}

const WIDE = 100
const HIGH = 100

function Line({ weights }: { readonly weights: readonly Weight[] }) {
  const grams = weights.map(one => one.grams)
  const [low, high] = [Math.min(...grams), Math.max(...grams)]
  const from = weights[0]?.at.getTime() ?? 0
  const span = Math.max(1, (weights.at(-1)?.at.getTime() ?? 0) - from)
  const points = weights.map(one => ({
    id: one.id,
    x: ((one.at.getTime() - from) / span) * WIDE,
    y: high === low ? HIGH / 2 : HIGH - ((one.grams - low) / (high - low)) * HIGH,
  }))
  return (
    <div className="weights-plot" aria-hidden="true">
      <span className="weights-high">{gramsWords(high)}</span>
      <span className="weights-low">{gramsWords(low)}</span>
      <div className="weights-line">
        <svg aria-hidden="true" focusable="false" preserveAspectRatio="none" viewBox={`0 0 ${WIDE} ${HIGH}`}>
          <polyline points={points.map(({ x, y }) => `${x},${y}`).join(' ')} />
        </svg>
        {points.map(({ id, x, y }) => (
          <i key={id} style={{ left: `${x}%`, top: `${y}%` }} />
        ))}
      </div>
    </div>
  )
}

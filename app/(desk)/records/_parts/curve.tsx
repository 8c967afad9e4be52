import { AsTable, type Column, DataTable } from '#app/_ui/table.tsx'
import type { RecordShown } from '#lib/service/records.ts'
import { curveSentence, ofHundred, RECORD, waitsWords } from '#lib/words/records.ts'
import { bandPoints, curvePoints, tableDays, ticksOf } from './curve-data.ts'

type Curve = RecordShown['curve']
type Props = Pick<RecordShown, 'curve' | 'before'>

const SHARES = [0, 25, 50, 75, 100]

/** Who is still in the stage day by day: by the records with their band, by the plan, and how many animals tell it. */
export function StageCurve({ curve, before }: Props) {
  const days = curve.learned.length
  const middle = Math.floor(days / 2)
  return (
    <figure className="curve">
      <figcaption className="vh">
        {curveSentence(middle, curve.learned[middle] ?? 0, curve.plan[middle] ?? 0)}
      </figcaption>
      <div className="curve-pic" aria-hidden="true">
        <div className="curve-plot">
          <Shapes curve={curve} before={before} />
          {SHARES.map(share => (
            <span key={share} className="curve-left" style={{ top: `${100 - share}%` }}>
              {share}
            </span>
          ))}
        </div>
        <Days curve={curve} />
      </div>
      <p className="fan-key">
        {RECORD.key} {before !== null && RECORD.keyBefore} {waitsWords(curve.opens)}
      </p>
      <AsTable>
        <CurveTable curve={curve} before={before} />
      </AsTable>
    </figure>
  )
}

function Shapes({ curve: { plan, learned, low, high }, before }: Props) {
  const days = learned.length
  return (
    <svg aria-hidden="true" focusable="false" preserveAspectRatio="none" viewBox={`0 0 ${days} 100`}>
      {SHARES.map(share => (
        <line key={share} className="curve-grid" x1={0} x2={days} y1={100 - share} y2={100 - share} />
      ))}
      <polygon className="curve-band" points={bandPoints(low, high)} />
      {before !== null && <polyline className="curve-before" points={curvePoints(before.slice(0, days))} />}
      <polyline className="curve-plan" points={curvePoints(plan)} />
      <polyline className="curve-line" points={curvePoints(learned)} />
    </svg>
  )
}

/** The days under the picture, and how many animals were watched on each. */
function Days({ curve: { learned, atRisk } }: { readonly curve: Curve }) {
  const days = learned.length
  const ticks = ticksOf(days)
  const placed = (day: number) => ({ left: `${(100 * day) / days}%` })
  return (
    <>
      <div className="curve-days">
        <b>{RECORD.day}</b>
        {ticks.map(day => (
          <span key={day} style={placed(day)}>
            {day}
          </span>
        ))}
      </div>
      <div className="curve-days curve-risk">
        <b>{RECORD.atRisk}</b>
        {ticks.map(day => (
          <span key={day} style={placed(day)}>
            {Math.round(atRisk[Math.min(day, days - 1)] ?? 0)}
          </span>
        ))}
      </div>
    </>
  )
}

function CurveTable({ curve: { plan, learned, low, high, atRisk }, before }: Props) {
  const month: Column<number>[] =
    before === null
      ? []
      : [
          {
            key: 'before',
            head: RECORD.before,
            right: true,
            cell: day => (day < before.length ? ofHundred(before[day] ?? 0) : ''),
          },
        ]
  const at = (of: Float64Array, day: number) => of[day] ?? 0
  return (
    <DataTable
      caption={RECORD.curveNote}
      rows={tableDays(learned.length)}
      keyOf={String}
      columns={[
        { key: 'day', head: RECORD.day, isRowHead: true, cell: String },
        { key: 'in', head: RECORD.stillIn, right: true, cell: day => ofHundred(at(learned, day)) },
        {
          key: 'between',
          head: RECORD.between,
          right: true,
          cell: day => `${ofHundred(at(low, day))} to ${ofHundred(at(high, day))}`,
        },
        ...month,
        { key: 'plan', head: RECORD.byPlan, right: true, cell: day => ofHundred(at(plan, day)) },
        {
          key: 'risk',
          head: RECORD.atRisk,
          right: true,
          cell: day => String(Math.round(at(atRisk, day))),
        },
      ]}
    />
  )
}

import type { CSSProperties } from 'react'
import { changeLine, changeWords, FAN_WORDS, fanSentence, placesWords } from '#lib/words/fan.ts'
import { clipPolygon, groundBetween, svgPoints } from '../ribbon/geometry.ts'
import { stemRows, textWidth } from '../ribbon/labels.ts'
import { DateAxis } from '../ribbon/ribbon-labels.tsx'
import { percentOf } from '../ribbon/scale.ts'
import { GroundShape } from '../ribbon/shapes.tsx'
import { AsTable } from '../table.tsx'
import type { FanData } from './fan-data.ts'
import { FanTable } from './fan-table.tsx'
import { changesOf, type Fan as FanShape, fanOf, placesOn, spread, worstOf } from './geometry.ts'

export type FanProps = {
  readonly data: FanData
  /** From which chance a day is tight (the network's policy). */
  readonly tightFrom: number
}

/** Animals against places: the nights that were, the days to come with their doubt, the ground beneath. */
export function Fan({ data, tightFrom }: FanProps) {
  const fan = fanOf(data)
  const axis = { fromDay: data.todayDay - data.past.length, days: fan.days }
  const ground = groundBetween(data.past.length, fan.days, data.shortByDay)
  const sentence = fanSentence({
    noun: data.noun,
    now: data.ahead[0]?.median ?? data.past.at(-1) ?? 0,
    places: placesOn(data, data.todayDay),
    worst: worstOf(data, tightFrom),
    lastDay: data.todayDay + data.ahead.length - 1,
  })
  return (
    <figure className="fan">
      <figcaption className="vh">{sentence}</figcaption>
      <div className="fan-pic" aria-hidden="true">
        <ChangeTexts data={data} fan={fan} />
        <p className="fan-unit">{data.noun}</p>
        <div className="fan-plot">
          <FanShapes fan={fan} />
          {fan.gridLines.map(value => (
            <span key={value} className="fan-left" style={{ top: `${100 - (100 * value) / fan.top}%` }}>
              {value}
            </span>
          ))}
          <RightLabels data={data} fan={fan} />
          <span className="today-line" style={{ left: `${percentOf(data.todayDay, axis)}%` }} />
        </div>
        <div className="fan-strip">
          <GroundShape ground={ground} days={fan.days} />
        </div>
        <DateAxis axis={axis} todayDay={data.todayDay} />
      </div>
      <p className="fan-key">{FAN_WORDS.key}</p>
      <ul className="fan-changes only-phone">
        {changesOf(data).map(step => (
          <li key={step.fromDay}>{changeLine(step.fromDay, step.places, step.reason)}</li>
        ))}
      </ul>
      <AsTable label={FAN_WORDS.asTable}>
        <FanTable data={data} />
      </AsTable>
    </figure>
  )
}

function FanShapes({ fan }: { fan: FanShape }) {
  return (
    <>
      <svg
        aria-hidden="true"
        focusable="false"
        preserveAspectRatio="none"
        viewBox={`0 0 ${fan.days} ${fan.top}`}
      >
        {fan.gridLines.map(value => (
          <line
            key={value}
            className="fan-grid"
            x1={0}
            x2={fan.days}
            y1={fan.top - value}
            y2={fan.top - value}
          />
        ))}
        <polygon className="fan-outer" points={svgPoints(fan.outer)} />
        <polygon className="fan-inner" points={svgPoints(fan.inner)} />
      </svg>
      {fan.over.length > 0 && (
        <i className="fan-over" style={{ clipPath: clipPolygon(fan.over, fan.days, fan.top) }} />
      )}
      <svg
        aria-hidden="true"
        focusable="false"
        preserveAspectRatio="none"
        viewBox={`0 0 ${fan.days} ${fan.top}`}
      >
        <polyline className="fan-median" points={svgPoints(fan.median)} />
        <polyline className="fan-past" points={svgPoints(fan.past)} />
        <polyline className="fan-capacity" points={svgPoints(fan.capacity)} />
      </svg>
    </>
  )
}

const PLOT_PX = 280

/** What the lines at the right edge are, moved apart to 15 px. */
function RightLabels({ data, fan }: { data: FanData; fan: FanShape }) {
  const last = data.ahead.at(-1)
  if (last === undefined) return null
  const places = placesOn(data, data.todayDay + data.ahead.length - 1)
  const labels = [
    { text: placesWords(places), value: places, isBold: true },
    { text: FAN_WORDS.tenthAbove, value: last.q90, isBold: false },
    { text: FAN_WORDS.half, value: (last.q75 + last.median) / 2, isBold: false },
    { text: FAN_WORDS.middle, value: last.median, isBold: false },
    { text: FAN_WORDS.tenthBelow, value: last.q10, isBold: false },
  ]
  const tops = spread(
    labels.map(({ value }) => PLOT_PX * (1 - value / fan.top)),
    16,
    0,
    PLOT_PX,
  )
  return (
    <div className="fan-right">
      {labels.map(({ text, isBold }, i) => (
        <span key={text} style={{ top: `${Math.round(tops[i] ?? 0)}px` }}>
          {isBold ? <b>{text}</b> : text}
        </span>
      ))}
    </div>
  )
}

const TEXTS_FROM_PX = 420

/** Each change of capacity hangs its reason on a stem above the plot. */
function ChangeTexts({ data, fan }: { data: FanData; fan: FanShape }) {
  const axis = { fromDay: data.todayDay - data.past.length, days: fan.days }
  const changes = changesOf(data).map(step => ({
    at: percentOf(step.fromDay, axis),
    text: changeWords(step.places, step.reason),
    // Down to the line of places, which the stem explains.
    reach: PLOT_PX * (1 - Math.max(step.places, placesOn(data, step.fromDay - 1)) / fan.top),
  }))
  const rows = stemRows(
    changes.map(({ at, text }) => ({ at, width: textWidth(text) + 6 })),
    TEXTS_FROM_PX,
  )
  if (changes.length === 0) return null
  const count = 1 + Math.max(0, ...rows.map(row => row ?? 0))
  return (
    <div className="fan-notes" style={{ height: `${count * 18 + 8}px` }}>
      {changes.map(({ at, text, reach }, i) => {
        const row = rows[i]
        if (row === undefined) return null
        const style = { left: `${at}%`, '--row': row, '--reach': `${Math.round(reach)}px` } as CSSProperties
        return (
          <span key={`${at}-${text}`} className="fan-note" style={style}>
            {text}
          </span>
        )
      })}
    </div>
  )
}

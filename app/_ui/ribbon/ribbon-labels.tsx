import type { CSSProperties } from 'react'
import { chanceTone, chanceWord, perCent } from '#lib/words/chance.ts'
import { aboutDate, moveWords, RIBBON_WORDS, shortStage } from '#lib/words/ribbon.ts'
import { fitClass, type Label, labelLefts, textWidth, ticksOf } from './labels.ts'
import type { RibbonAxis, RibbonData, RibbonStage } from './ribbon-data.ts'
import { percentOf } from './scale.ts'
import { stageClass } from './stage-class.ts'

type Part = { readonly data: RibbonData; readonly axis: RibbonAxis }
type Spot = CSSProperties & { '--l'?: string; '--s'?: string }

/** The width of the picture for which words are left out of narrow stages. */
const USUAL_PX = 700
const SWATCH_PX = 13
const GAP_PX = 12

/** Swatch, stage and chance at each stage's start, then the release. */
export function StageLabels({ data, axis, endWord }: Part & { endWord: string }) {
  const words = data.stages.map((stage, i) => wordsOf(data, axis, stage, i))
  const last = data.stages.at(-1)
  const isOut = last !== undefined && last.end.q90 < data.todayDay
  const outDate = last === undefined ? '' : aboutDate(last.end.median, isOut)
  const release: Label = {
    at: last === undefined ? 0 : Math.min(100, percentOf(last.end.median, axis)),
    width: Math.max(textWidth(endWord), textWidth(outDate)),
  }
  const wide = labelLefts([...words.map(word => word.wide), release])
  const narrow = labelLefts(words.map(word => word.narrow))
  const fit = fitClass(
    [...words.map(word => word.wide), release],
    words.map(word => word.narrow),
  )
  return (
    <div className={`rb-names ${fit}`}>
      {words.map(({ stage, number, word, tone }, i) => {
        const spot: Spot = { '--l': wide[i] ?? '0', '--s': narrow[i] ?? '0' }
        return (
          <span key={`${stage}-${wide[i]}`} className={`rb-name ${tone}`} style={spot}>
            <b>
              <i className={`sw ${stageClass(stage)}`} />
              <span className="l">{stage}</span>
              <span className="s">{shortStage(stage)}</span>
            </b>
            <em>
              {number}
              {word !== '' && <span className="l">, {word}</span>}
            </em>
          </span>
        )
      })}
      <span className="rb-name rb-out" style={{ '--l': wide.at(-1) ?? '0' } as Spot}>
        <b>{endWord}</b>
        <em>{outDate}</em>
      </span>
    </div>
  )
}

function wordsOf(data: RibbonData, axis: RibbonAxis, own: RibbonStage, index: number) {
  const start = Math.max(startOf(data, index), axis.fromDay)
  const { stage, chance, end } = own
  const number = chance === undefined ? (end.q90 < data.todayDay ? RIBBON_WORDS.past : '') : perCent(chance)
  const full = chance === undefined ? '' : chanceWord(chance)
  const chances = data.stages.map(other => other.chance ?? 1)
  const isWeakest = chance !== undefined && chance === Math.min(...chances)
  const stagePx = ((end.median - start) / axis.days) * USUAL_PX
  const fullPx = textWidth(`${number}, ${full}`)
  const word =
    full !== '' && (isWeakest || fullPx <= Math.max(stagePx, textWidth(stage) + SWATCH_PX)) ? full : ''
  const chancePx = textWidth(word === '' ? number : `${number}, ${word}`)
  const at = Math.max(0, percentOf(start, axis))
  return {
    stage,
    number,
    word,
    tone: chance === undefined ? 'past' : chanceTone(chance),
    wide: { at, width: Math.max(textWidth(stage) + SWATCH_PX, chancePx) + GAP_PX },
    narrow: { at, width: Math.max(textWidth(shortStage(stage)) + SWATCH_PX, textWidth(number)) + 6 },
  }
}

/** The likely day on which a stage begins. */
function startOf(data: RibbonData, index: number): number {
  return data.stages[index - 1]?.end.median ?? data.startDay
}

/** One line of centres, with an upright bar and the distance at each move. */
export function PlaceLane({ data, axis }: Part) {
  const stops = data.stages
    .map((stage, i) => ({ stage, at: Math.max(0, percentOf(startOf(data, i), axis)) }))
    .filter(({ stage }, i) => stage.centre !== data.stages[i - 1]?.centre)
    .map(({ stage, at }) => {
      const long = moveWords(stage.centre, stage.place, stage.kmOn)
      return { at, long, short: stage.centre }
    })
  const wide = stops.map(stop => ({ at: stop.at, width: textWidth(stop.long) + 14 }))
  const narrow = stops.map(stop => ({ at: stop.at, width: textWidth(stop.short) + 12 }))
  const [wideLefts, narrowLefts] = [labelLefts(wide), labelLefts(narrow)]
  const start = Math.max(0, percentOf(data.startDay, axis))
  const end = Math.min(100, percentOf(data.stages.at(-1)?.end.q75 ?? data.startDay, axis))
  return (
    <div className={`rb-lane ${fitClass(wide, narrow)}`}>
      <i style={{ left: `${start}%`, width: `${Math.max(0, end - start)}%` }} />
      {stops.map((stop, i) => (
        <span
          key={`${stop.long}-${stop.at}`}
          className={i === 0 ? undefined : 'rb-move'}
          style={{ '--l': wideLefts[i] ?? '0', '--s': narrowLefts[i] ?? '0' } as Spot}
        >
          <span className="l">{stop.long}</span>
          <span className="s">{stop.short}</span>
        </span>
      ))}
    </div>
  )
}

/** Monday ticks and their dates, and the word "today". */
export function DateAxis({ axis, todayDay }: { axis: RibbonAxis; todayDay: number }) {
  const today = percentOf(todayDay, axis)
  return (
    <div className="axis">
      {ticksOf(axis, todayDay).map(tick => (
        <span key={tick.at} className={tick.isMain ? 'tick' : 'tick minor'} style={{ left: `${tick.at}%` }}>
          {tick.text !== undefined && <b>{tick.text}</b>}
        </span>
      ))}
      {today >= 0 && today <= 100 && (
        <span className="tick-today" style={{ left: `min(${today}%, 100% - 40px)` }}>
          {RIBBON_WORDS.today}
        </span>
      )}
    </div>
  )
}

import type { CSSProperties } from 'react'
import type { CareStage } from '#lib/domain/housing.ts'
import { endWords, RIBBON_WORDS, ribbonSentence, type SpokenStage, weakestWords } from '#lib/words/ribbon.ts'
import { AsTable } from '../table.tsx'
import { groundOf, profileOf } from './geometry.ts'
import { CheckStems, CheckTexts } from './ribbon-checks.tsx'
import type { RibbonAxis, RibbonData } from './ribbon-data.ts'
import { DateAxis, PlaceLane, StageLabels } from './ribbon-labels.tsx'
import { RibbonTable } from './ribbon-table.tsx'
import { percentOf } from './scale.ts'
import { GroundShape, ProfileShape } from './shapes.tsx'

export type StayRibbonProps = {
  readonly data: RibbonData
  /** Shared by all options of a list. */
  readonly axis: RibbonAxis
  /** `option` in a list, `casualty` taller and with the texts of its checks. */
  readonly size?: 'option' | 'casualty'
  /** What the end is called: "release" unless the plan ends otherwise. */
  readonly endWord?: string
}

/** The stay as a walking profile over the ground of the network. One markup fits every width. */
export function StayRibbon({ data, axis, size = 'option', endWord = RIBBON_WORDS.release }: StayRibbonProps) {
  const weakest = weakestOf(data)
  const last = data.stages.at(-1)
  const short = [
    weakest === undefined ? '' : weakestWords(weakest.stage, weakest.chance),
    last === undefined ? '' : endWords(endWord, last.end.median, last.end.q90 < data.todayDay),
  ]
    .filter(Boolean)
    .join('; ')
  return (
    <figure className={size === 'casualty' ? 'rb rb-big' : 'rb'}>
      <figcaption className="vh">{ribbonSentence(spokenOf(data), data.todayDay)}</figcaption>
      <div className="rb-pic" aria-hidden="true">
        {size === 'casualty' && <CheckTexts data={data} axis={axis} />}
        <div className="rb-body">
          <ProfileShape profile={profileOf(data, axis)} days={axis.days} />
          <GroundShape ground={groundOf(data, axis)} days={axis.days} />
          <CheckStems data={data} axis={axis} />
          <TodayLine data={data} axis={axis} />
        </div>
        <StageLabels data={data} axis={axis} endWord={endWord} />
        <PlaceLane data={data} axis={axis} />
        <DateAxis axis={axis} todayDay={data.todayDay} />
        <p className="rb-weak">{short}</p>
      </div>
      <AsTable>
        <RibbonTable data={data} />
      </AsTable>
    </figure>
  )
}

export type SmallRibbonProps = { readonly data: RibbonData; readonly days?: number }

/** Eight weeks from today, 120 by 22 px, for tables and cages; its dates must stand beside it in words. */
export function SmallRibbon({ data, days = 56 }: SmallRibbonProps) {
  const axis = { fromDay: data.todayDay, days }
  return (
    <span className="rb-small" aria-hidden="true">
      <ProfileShape profile={profileOf(data, axis)} days={days} />
      <GroundShape ground={groundOf(data, axis)} days={days} />
    </span>
  )
}

/** The stage with the smallest chance of a place. */
export function weakestOf(data: RibbonData): { stage: CareStage; chance: number } | undefined {
  let weakest: { stage: CareStage; chance: number } | undefined
  for (const { stage, chance } of data.stages) {
    if (chance !== undefined && (weakest === undefined || chance < weakest.chance))
      weakest = { stage, chance }
  }
  return weakest
}

function spokenOf(data: RibbonData): SpokenStage[] {
  return data.stages.map(({ stage, centre, end, chance }) => ({
    stage,
    centre,
    until: end.median,
    chance,
    isPast: end.q90 < data.todayDay,
  }))
}

function TodayLine({ data, axis }: { data: RibbonData; axis: RibbonAxis }) {
  const style: CSSProperties = { left: `${percentOf(data.todayDay, axis)}%` }
  return <span className="today-line" style={style} />
}

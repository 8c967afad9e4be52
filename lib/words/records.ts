/**
 * What the network's own records say of stages of care, in the words of its pages.
 * Promise: "times the plan" always stands with how many animals it rests on, and with how much its days lean on the plan.
 * Where nothing of its own was recorded the words say so. Days of the network's calendar, chances from 0 to 1.
 */
import type { DayNumber } from '#lib/domain/day.ts'
import type { Season } from '#lib/domain/stage-cell.ts'
import { capital } from './capital.ts'
import { clockTime, dayAndClock, longDate } from './dates.ts'

export const RECORDS = {
  title: 'Records',
  link: 'What your records say of each stage',
  none: "Nothing is learned yet: the plans' figures are used",
  noneComing:
    'What your records say of each stage stands here after the first learning, which follows as stays end.',
  ownNote: 'A stage ends when an animal is said ready; waiting for a place is no healing.',
  farthest: 'Farthest from their plans',
  farthestNote: 'Where 8 chances in 10 leave the plan out; the farthest first.',
  noneFar: 'No stage is far from its plan',
  noneFarComing: 'Once records leave a plan out with 8 chances in 10, its stage stands here.',
  byCondition: 'By condition',
  byConditionNote: 'The most stays first.',
  other: 'Without records of their own',
  otherNote: 'What others of their kind are out by is used, else the plan as it stands.',
  stage: 'Stage',
  plan: 'Plan',
  animals: 'Animals',
  times: 'Times the plan',
  within: '8 in 10 between',
  lean: 'Its days lean on the plan',
  before: 'About a month before',
  back: 'All stages',
  working: 'Until it is done, what was learned before is used and shown.',
  broke: 'What was learned before stays in use. It begins anew as soon as the worker runs again.',
} as const

export const ARRIVALS = {
  head: 'Arrivals',
  note: 'Boxes, with one animal or several. Who was sent elsewhere counts like who came. Beside what the centres entered as their usual year.',
  none: 'No arrival is on record yet',
  noneComing: 'Until then the usual year that the centres entered is used.',
  group: 'Group',
  events: 'Arrivals',
  refused: 'Of them sent elsewhere',
  times: 'Times what was entered',
  within: '8 in 10 between',
  weekend: 'A weekend day, times a weekday',
  season: 'This season so far, times usual',
} as const

export const RECORD = {
  curve: 'How long it takes',
  curveNote: 'Of 100 that begin the stage, how many are in it still, day by day, however it ends.',
  records: 'your records',
  planned: 'the plan',
  band: '8 in 10 chances',
  key: 'Line: your records. Band: 8 chances in 10 that the truth lies in it. Dashed: the plan.',
  keyBefore: 'Thin line: your records about a month before.',
  before: 'About a month before',
  atRisk: 'Animals whose day was recorded',
  day: 'Day',
  stillIn: 'In it still',
  between: '8 in 10 between',
  byPlan: 'By the plan',
  figures: 'What the plan says',
  figuresNote: 'Each figure with its source.',
  length: 'How long',
  ends: 'How it ends',
  when: 'When, if it ends here',
  deaths: 'Early deaths',
  changed: 'What changed',
  rests: 'What it rests on',
  noSource: 'These plans are not in setup any more.',
} as const

/** Within so much of 1 is as long as the plan. */
const AS_PLANNED = 0.05

/** "1.4 times the plan"; "as long as the plan". */
export function timesWords(times: number): string {
  return Math.abs(times - 1) < AS_PLANNED ? 'as long as the plan' : `${times.toFixed(1)} times the plan`
}

/** "1.4", under a head that says of what. */
export function timesShort(times: number): string {
  return times.toFixed(1)
}

/** "1.1 to 1.7"; finer where that would say the same twice. */
export function timesSpan({ low, high }: { readonly low: number; readonly high: number }): string {
  const digits = low.toFixed(1) === high.toFixed(1) ? 2 : 1
  return `${low.toFixed(digits)} to ${high.toFixed(digits)}`
}

const HARDLY = 'hardly'
const PARTS: readonly (readonly [number, string])[] = [
  [0.05, HARDLY],
  [0.15, 'a tenth'],
  [0.225, 'a fifth'],
  [0.29, 'a quarter'],
  [0.4, 'a third'],
  [0.6, 'half'],
  [0.71, 'two thirds'],
  [0.85, 'three quarters'],
  [0.95, 'nine tenths'],
]

/** How much the chances of its days lean on the plan: "a fifth"; "wholly". */
export function leanWords(lean: number): string {
  return PARTS.find(([most]) => lean < most)?.[1] ?? 'wholly'
}

/** "37 animals". */
export function animalsWords(count: number): string {
  return count === 1 ? '1 animal' : `${count} animals`
}

type Said = { readonly animals: number; readonly lean: number; readonly stretch: { readonly mean: number } }

/** "Your records say 1.4 times the plan, from 37 animals; its days lean a fifth on the plan". */
export function recordSentence({ animals, lean, stretch }: Said): string {
  if (animals === 0) {
    const times = timesWords(stretch.mean)
    return `No stay of its own is recorded; others of its kind say ${times}`
  }
  const words = leanWords(lean)
  const leans = words === HARDLY ? `${HARDLY} lean` : `lean ${words}`
  return `Your records say ${timesWords(stretch.mean)}, from ${animalsWords(animals)}; its days ${leans} on the plan`
}

/** "3 stages, 112 stays". */
export function staysWords(stages: readonly { readonly animals: number }[]): string {
  const count = stages.length === 1 ? '1 stage' : `${stages.length} stages`
  const stays = stages.reduce((sum, { animals }) => sum + animals, 0)
  return stays === 0 ? count : `${count}, ${stays === 1 ? '1 stay' : `${stays} stays`}`
}

/** The head of the list: "Your records speak of 43 of 245 stages". */
export function recordsSentence(own: number, all: number): string {
  if (own === 0) return `No stage has records of its own yet; all ${all} lean on the plans`
  return `Your records speak of ${own} of ${all} stages`
}

/** Which learning it is: "Learned from what was known on 28 November, of 312 stays; model stages 1, run 4". */
export function runWords(run: {
  readonly id: number
  readonly asOf: DayNumber
  readonly animals: number
  readonly modelVersion: string
}): string {
  const stays = run.animals === 1 ? '1 stay' : `${run.animals} stays`
  return `Learned from what was known on the morning of ${longDate(run.asOf)}, of ${stays}. Model ${run.modelVersion}, run ${run.id}.`
}

/** What opens a folded list: "All 31 conditions". */
export function allConditionsWords(count: number): string {
  return count === 1 ? 'The one condition with records' : `All ${count} conditions with records`
}

/** "All 38 groups". */
export function allGroupsWords(count: number): string {
  return count === 1 ? 'The one group' : `All ${count} groups`
}

type Learning = {
  readonly done: number
  readonly outOf: number
  readonly begunAt: Date
  readonly toldAt: Date
}

/** "Learning from the records: 120 of 664 steps, since 14:02". */
export function learningWords({ done, outOf, begunAt }: Learning, zone: string): string {
  return `Learning from the records: ${done} of ${outOf} steps, since ${clockTime(begunAt, zone)}`
}

/** "Learning stopped on Mon 30 Nov, 14:07, after 120 of 664 steps". */
export function brokeOffWords({ done, outOf, toldAt }: Learning, zone: string): string {
  return `Learning stopped on ${dayAndClock(toldAt, zone)}, after ${done} of ${outOf} steps`
}

/** "Any bird, moderate, without surgery". */
export function planName(plans: readonly { readonly group: string; readonly how: string }[]): string {
  return capital(plans.map(({ group, how }) => `${group}, ${how}`).join(' and '))
}

const ADMITTED: Readonly<Record<Season, string>> = {
  winter: 'admitted in winter',
  spring: 'admitted in spring',
  summer: 'admitted in summer',
  autumn: 'admitted in autumn',
}

/** "admitted in autumn"; empty where the season makes no difference. */
export function admittedWords(season: Season | null): string {
  return season === null ? '' : ADMITTED[season]
}

/** What changed: "On 29 October your records said 1.2 times the plan (1.0 to 1.5); now they say 1.4 (1.2 to 1.7)". */
export function changedSentence(
  now: { readonly mean: number; readonly low: number; readonly high: number },
  before: { readonly mean: number; readonly low: number; readonly high: number } | null,
  on: DayNumber | null,
): string {
  if (on === null) return 'There is no learning of about a month ago to compare with'
  const day = longDate(on)
  if (before === null) return `On ${day} nothing was learned of this stage`
  const said = (of: typeof now) => `${timesWords(of.mean)} (${timesSpan(of)})`
  if (said(now) === said(before)) return `On ${day} it was the same: ${said(now)}`
  return `On ${day} it was ${said(before)}; now it is ${said(now)}`
}

/** How often they die early: "die about as often as the plan says"; "odds of death 1.3 times the plan's". */
export function oddsWords(odds: number): string {
  if (Math.abs(odds - 1) < AS_PLANNED) return 'about as the plan says'
  return `${odds.toFixed(1)} times the odds that the plan gives`
}

/** Who waits for a date: "The picture is of one that waits 95 days for its date". */
export function waitsWords(opens: number): string {
  if (opens === 0) return ''
  return `Drawn for an animal that waits ${opens === 1 ? '1 day' : `${opens} days`} for its date.`
}

/** The line of a day for a screen reader of the picture: "Day 10: 64 of 100 by your records, 52 by the plan". */
export function curveSentence(day: number, records: number, plan: number): string {
  return `Day ${day}: ${ofHundred(records)} of 100 in it still by your records, ${ofHundred(plan)} by the plan`
}

/** A share of 100, whole. */
export function ofHundred(share: number): string {
  return String(Math.round(100 * share))
}

/**
 * The plan of one animal in words: how long each stage takes, how it ends, which version it is.
 * Promise: every number is that of the stored plan, rounded to half days and whole per cent; its source stands beside
 * it on the page. Days, per cent.
 */
import { dayOfInstant } from '#lib/domain/day.ts'
import type { StageEstimate } from '#lib/domain/estimate.ts'
import { dateWithYear, MONTHS } from './dates.ts'

export const PLAN = {
  head: 'The plan',
  note: 'Its own copy. Beside each number stands where it comes from; what was revised here says so.',
  stage: 'Stage',
  length: 'How long',
  ends: 'How it ends',
  when: 'When, if it ends here',
  older: (versionNo: number) => `Version ${versionNo}, as it stood`,
  caption: (versionNo: number) => `Stages of version ${versionNo}`,
} as const

/** "Version 2, 29 Nov 2026, Odile Brackenray: Radiograph: bone not united, 21 days longer". */
export function versionWords(
  version: {
    readonly versionNo: number
    readonly because: string
    readonly entered: { readonly by: string | null; readonly at: Date }
  },
  zone: string,
): string {
  const { versionNo, because, entered } = version
  const by = entered.by === null ? '' : `, ${entered.by}`
  return `Version ${versionNo}, ${dateWithYear(dayOfInstant(entered.at, zone))}${by}: ${because}`
}

/** "usually 35 days, nine of ten within 55"; "from 20 March, at least 10 days, then usually 12 days". */
export function lengthOfStage({ ready, leastDays }: StageEstimate, waitsFor: string | null = null): string {
  const waits = waitsFor === null ? '' : `; waits for ${waitsFor}`
  const least = `${leastDays === undefined || leastDays === 0 ? '' : `, not before day ${leastDays}`}${waits}`
  if (ready.kind === 'length') {
    const { medianDays, p90Days } = ready.length
    return `usually ${days(medianDays)}, nine of ten within ${days(p90Days)}${least}`
  }
  const until = ready.closes === null ? '' : ` until ${monthDayWords(ready.closes)}`
  const min = ready.minDays === 0 ? '' : `, at least ${days(ready.minDays)}`
  return `from ${monthDayWords(ready.opens)}${until}${min}, then usually ${days(ready.lag.medianDays)}${least}`
}

/** "goes on 86 %, dies 6 %, euthanased by a vet 8 %". */
export function endsOfStage({ shares }: StageEstimate): string {
  return [
    `goes on ${percent(shares.onward)}`,
    `dies ${percent(shares.died)}`,
    `euthanased by a vet ${percent(shares.euthanased)}`,
    ...(shares.left > 0 ? [`leaves otherwise ${percent(shares.left)}`] : []),
  ].join(', ')
}

/** "died: usually 2 days, nine of ten within 31; euthanased: ...". */
export function exitTimesOfStage({ died, euthanased }: StageEstimate): string {
  const time = (of: StageEstimate['died']) =>
    `usually ${days(of.medianDays)}, nine of ten within ${days(of.p90Days)}`
  return `died: ${time(died)}; euthanased: ${time(euthanased)}`
}

/** "20 March". */
export function monthDayWords(monthDay: string): string {
  return `${Number(monthDay.slice(3))} ${MONTHS[Number(monthDay.slice(0, 2)) - 1] ?? ''}`
}

function days(count: number): string {
  const shown = Math.round(count * 2) / 2
  return shown === 1 ? '1 day' : `${shown} days`
}

function percent(share: number): string {
  return `${Math.round(share * 100)}\u00a0%`
}

import { dayOfInstant } from '#lib/domain/day.ts'
import type { CasualtyCard } from '#lib/service/casualty.ts'
import { cardSentence } from '#lib/words/casualty.ts'
import { dayAndClock } from '#lib/words/dates.ts'

/** The card in one sentence: where it stands, and the next check that has a date. */
export function sentenceOf(card: CasualtyCard): string {
  const { now, zone, today, stageNow, ahead, holds, arrivedOn, checks } = card
  const isFit = stageNow?.readyAt != null && stageNow.next === undefined
  const isReady = stageNow?.readyAt != null && stageNow.next !== undefined
  const next = checks
    .filter(
      check => check.doneAt === null && !check.isCalledOff && check.stageNo <= (stageNow?.stage.no ?? 1),
    )
    .flatMap(({ slug, dueOn }) => (dueOn === null ? [] : [{ slug, dueOn }]))
    .sort((a, b) => a.dueOn - b.dueOn)[0]
  const since = dayOfInstant(now.since, zone)
  const expected = holds[0]?.expectedAt
  return cardSentence({
    day: Math.max(1, (now.keeper === 'nobody' ? since : today) - arrivedOn + 1),
    keeper: now.keeper,
    outcome: now.outcome,
    endedOn: since,
    today,
    expected: expected == null ? null : `${dayAndClock(expected, zone)}, ${holds[0]?.centre ?? ''}`,
    short: now.short,
    fitSince: isFit && stageNow?.readyAt != null ? dayOfInstant(stageNow.readyAt, zone) : null,
    readyFor: isReady ? (stageNow?.next?.stage ?? null) : null,
    out: ahead?.stages.at(-1)?.end.median ?? null,
    next: next ?? null,
  })
}

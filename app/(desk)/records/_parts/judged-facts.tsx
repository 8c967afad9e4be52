import { Facts } from '#app/_ui/section.tsx'
import type { JudgedShown } from '#lib/service/judged.ts'
import { dateWithYear } from '#lib/words/dates.ts'
import { JUDGED, judgedDaysWords, madeFromWords, pairsWords, staysWords } from '#lib/words/judged.ts'

/** What was judged, on which days, by which model, from which records. */
export function JudgedFacts({ judged, zone }: { readonly judged: JudgedShown; readonly zone: string }) {
  const { span, judgedDays, outOf, horizons, historyFrom, modelVersion, stays } = judged
  const days = span === null ? [] : [{ term: JUDGED.days, value: judgedDaysWords(judgedDays, outOf, span) }]
  const since = historyFrom === null ? [] : [{ term: JUDGED.since, value: dateWithYear(historyFrom) }]
  return (
    <Facts
      facts={[
        { term: JUDGED.judged, value: JUDGED.judgedWords },
        { term: JUDGED.notJudged, value: JUDGED.notJudgedWords },
        ...days,
        { term: JUDGED.pairs, value: pairsWords(horizons) },
        ...(stays === null ? [] : [{ term: JUDGED.stays, value: staysWords(stays) }]),
        ...since,
        { term: JUDGED.model, value: modelVersion },
        { term: JUDGED.made, value: madeFromWords(judged, zone) },
      ]}
    />
  )
}

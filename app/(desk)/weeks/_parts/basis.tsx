import type { Made } from '#lib/service/weeks.ts'
import { dayAndClock } from '#lib/words/dates.ts'
import { madeWords, tightMeans } from '#lib/words/weeks.ts'

/** When and from what the forecast was made, and what "tight" means. */
export function Basis({ made, counted }: { readonly made: Made; readonly counted?: string }) {
  const { asAt, zone, revision, horizonDays, tightFrom, learning } = made
  return (
    <>
      {tightMeans(tightFrom)} {madeWords({ at: dayAndClock(asAt, zone), revision, horizonDays, learning })}
      {counted !== undefined && ` ${counted}`}
    </>
  )
}

import { EmptyState } from '#app/_ui/notice.tsx'
import { Section } from '#app/_ui/section.tsx'
import type { CasualtyCard } from '#lib/service/casualty.ts'
import { CARD, LAW_BARS, seasonWords } from '#lib/words/casualty.ts'
import { barSentence } from '#lib/words/release.ts'
import { seasonLine } from '#lib/words/season.ts'
import { gateLines } from './gate-lines.ts'

/** What must be passed before it may go: gates of this stage and of release, the season, the law. */
export function Before({ card }: { readonly card: CasualtyCard }) {
  const lines = gateLines(card)
  const bars = card.licences.filter(one => one.barsRelease)
  const season = card.species.release_season_note
  const { seasons } = card
  const implants = card.implants.filter(({ state }) => state === 'in place')
  const isEmpty =
    lines.length === 0 &&
    bars.length === 0 &&
    season === null &&
    seasons.length === 0 &&
    implants.length === 0
  return (
    <Section id="before" head={CARD.before} note={CARD.beforeNote}>
      {isEmpty ? (
        <EmptyState sentence={CARD.noGates} coming={CARD.noGatesComing} />
      ) : (
        <ul className="gates">
          {bars.map(bar => (
            <li key={bar.key}>
              <span className="grave">{CARD.open}</span>
              <span>
                <b>{LAW_BARS}</b>: {bar.meaning}
              </span>
            </li>
          ))}
          {implants.map(implant => (
            <li key={implant.id}>
              <span>{CARD.open}</span>
              <span>{barSentence({ rule: 'implant', kind: implant.kind })}</span>
            </li>
          ))}
          {lines.map(line => (
            <li key={line.key}>
              <span className={line.state === CARD.passed ? 'is-passed' : undefined}>{line.state}</span>
              <span>{line.text}</span>
            </li>
          ))}
          {seasons.map(one => (
            <li key={one.kind}>
              <span>{CARD.season}</span>
              <span>{seasonLine(one)}</span>
            </li>
          ))}
          {season !== null && (
            <li>
              <span>{CARD.season}</span>
              <span>{seasonWords(season)}</span>
            </li>
          )}
        </ul>
      )}
    </Section>
  )
}

import type { Fact } from '#app/_ui/section.tsx'
import { Act } from '#app/(desk)/casualties/_parts/act.tsx'
import { WAITS_FOR } from '#lib/domain/release.ts'
import type { CasualtyCard } from '#lib/service/casualty.ts'
import { paths } from '#lib/web/paths.ts'
import { CHANGE } from '#lib/words/casualty-change.ts'
import { dayAndClock } from '#lib/words/dates.ts'
import { RELEASE, ringWords, siteWords, waitChoice, waitWords, wayWords } from '#lib/words/release.ts'
import { waited } from '../../actions.ts'
import { hiddenOf } from './act-fields.ts'

/** Where it went and with which marks; while it is fit and here, what it waits for. */
export function releaseFacts(card: CasualtyCard): Fact[] {
  const { released, waitsFor, plannedAt } = card.release
  if (released !== null) {
    return [
      {
        term: RELEASE.site,
        value: (
          <>
            {siteWords(released.place)}
            <span className="sub">{wayWords(released.way)}</span>
            <span className="sub">
              {ringWords(released.ring)}; {RELEASE.releaser.toLowerCase()}: {released.releaser}
            </span>
          </>
        ),
      },
    ]
  }
  const isFit = card.stageNow?.readyAt != null && card.stageNow.next === undefined
  if (!isFit || card.now.keeper === 'nobody') return []
  return [
    {
      term: RELEASE.waits,
      value: (
        <>
          {waitWords(waitsFor)}
          <span className="sub">
            {plannedAt === null ? (
              <a href={`${paths.releases({ animal: card.head.id })}#plan`}>{RELEASE.planLink}</a>
            ) : (
              <>
                {RELEASE.plannedFor}{' '}
                <a href={`${paths.releases()}#planned`}>{dayAndClock(plannedAt, card.zone)}</a>
              </>
            )}
          </span>
          {card.can.record && (
            <Act
              id="wait"
              action={waited}
              title={RELEASE.wait}
              submit={CHANGE.record}
              hidden={hiddenOf(card)}
              fields={[
                {
                  kind: 'many',
                  name: 'waitsFor[]',
                  label: RELEASE.wait,
                  hint: RELEASE.waitHint,
                  columns: 2,
                  choices: WAITS_FOR.map(value => ({ value, label: waitChoice(value) })),
                },
              ]}
            />
          )}
        </>
      ),
    },
  ]
}

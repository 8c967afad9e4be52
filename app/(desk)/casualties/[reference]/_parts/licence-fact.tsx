import type { Fact } from '#app/_ui/section.tsx'
import { Act } from '#app/(desk)/casualties/_parts/act.tsx'
import { dayOfDate } from '#lib/domain/day.ts'
import { LICENCE_DAYS_AHEAD } from '#lib/domain/licence.ts'
import type { CasualtyCard } from '#lib/service/casualty.ts'
import { CARD } from '#lib/words/casualty.ts'
import { CHANGE } from '#lib/words/casualty-change.ts'
import { LICENCE_DUTY, reviewedWords } from '#lib/words/caution.ts'
import { dateWithYear } from '#lib/words/dates.ts'
import { clockWords, LICENCE, licenceDone, ruleWords } from '#lib/words/licence.ts'
import { licenceSaid } from '../../actions.ts'
import { hiddenOf } from './act-fields.ts'

type Licence = CasualtyCard['licences'][number]

/** The rules that bind the species, each with its clocks by kind of holder and the day it was last reviewed. */
export function licenceFact(card: CasualtyCard): Fact {
  const { licences } = card
  if (licences.length === 0) return { term: CARD.licence, value: CARD.noLicence }
  return {
    term: CARD.licence,
    value: (
      <>
        {licences.map(one => (
          <span key={one.key} className="licence">
            {ruleWords(one)}
            <Clocks card={card} licence={one} />
            {one.done !== null && <span className="sub">{licenceDone(one.done)}</span>}
            <span className="sub">
              {reviewedWords(one.reviewedOn === null ? null : dateWithYear(dayOfDate(one.reviewedOn)))}
            </span>
          </span>
        ))}
        <span className="sub">{LICENCE_DUTY}</span>
      </>
    ),
  }
}

function Clocks({ card, licence }: { readonly card: CasualtyCard; readonly licence: Licence }) {
  const { today, can, now } = card
  const isOpen = now.keeper !== 'nobody' && licence.done === null
  const isRunning = licence.clocks.some(clock => clock.isRunning)
  return (
    <>
      {licence.clocks.map(clock => {
        const isNear = isOpen && clock.isRunning && clock.on - today <= LICENCE_DAYS_AHEAD
        const words = clockWords(clock, today)
        return clock.isRunning ? (
          <b key={clock.days} className={isNear ? 'mine' : undefined}>
            {words}
          </b>
        ) : (
          <span key={clock.days} className="sub">
            {words}
          </span>
        )
      })}
      {isOpen && isRunning && can.record && (
        <Act
          id={`licence-${licence.key}`}
          action={licenceSaid}
          title={LICENCE.say}
          submit={CHANGE.record}
          hidden={{ ...hiddenOf(card), key: licence.key }}
          fields={[{ kind: 'text', name: 'words', label: LICENCE.words, hint: LICENCE.wordsHint }]}
        />
      )}
    </>
  )
}

import { Button } from '#app/_ui/button.tsx'
import { CostTerms } from '#app/_ui/cost/cost-terms.tsx'
import { TextField } from '#app/_ui/field.tsx'
import type { RibbonAxis } from '#app/_ui/ribbon/ribbon-data.ts'
import { StayRibbon } from '#app/_ui/ribbon/stay-ribbon.tsx'
import { canBeAsked } from '#lib/domain/escalation.ts'
import type { PlacementOption } from '#lib/domain/option.ts'
import { ASK } from '#lib/words/ask.ts'
import { DESK, takeWords } from '#lib/words/desk.ts'
import {
  addedShortageWords,
  type CallSituation,
  countedWords,
  doorWords,
  OPTION_WORDS,
  optionRemarks,
  optionTitle,
  placeTonightWords,
  tellFinder,
  travelWords,
} from '#lib/words/option.ts'
import { termDetail, termLabel, whyFirst, whyNot } from '#lib/words/option-cost.ts'
import { aboutDate } from '#lib/words/ribbon.ts'
import { ribbonOf } from './option-ribbon.ts'

type Props = {
  readonly option: PlacementOption
  readonly rank: number
  readonly axis: RibbonAxis
  readonly situation: CallSituation
  readonly horizonDays: number
  readonly mayTake: boolean
}

/** One option: what it is, why it stands here, the stay, its terms, the button, what to say. */
export function OptionItem({ option, rank, axis, situation, horizonDays, mayTake }: Props) {
  const ribbon = ribbonOf(option, situation.today, horizonDays)
  const remarks = optionRemarks(option, situation)
  return (
    <li className={rank === 1 ? 'option first' : 'option'} data-option={option.key}>
      <p className="rank" aria-hidden="true">
        {rank}
      </p>
      <div>
        <h3>{optionTitle(option, situation.today)}</h3>
        <p className="why">{rank === 1 ? whyFirst(option) : whyNot(option)}</p>
        {remarks.map(remark => (
          <p key={remark} className="remark">
            {remark}
          </p>
        ))}
        {ribbon !== undefined && <StayRibbon data={ribbon} axis={axis} />}
        <Terms option={option} />
        <CostTerms
          terms={option.terms.map(term => ({
            label: termLabel(term),
            detail: termDetail(term),
            placeDays: term.value,
          }))}
        />
        {mayTake && <Take option={option} rank={rank} />}
        <details className="aloud">
          <summary>{DESK.readAloud}</summary>
          <ul>
            {tellFinder(option, situation).map(line => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        </details>
      </div>
    </li>
  )
}

/** The facts that decide with a finder on the phone, in one row. */
function Terms({ option }: { readonly option: PlacementOption }) {
  const facts: readonly (readonly [string, string])[] = [
    [DESK.drive, option.travel === null ? '' : travelWords(option.travel)],
    [DESK.door, option.door === null ? '' : doorWords(option.door)],
    [DESK.tonight, placeTonightWords(option)],
    [
      DESK.counted,
      option.to?.kind === 'centre' && option.path.length > 0 ? countedWords(option.countedDaysAgo) : '',
    ],
    [
      DESK.release,
      option.release === null || option.release.q50 === null ? '' : aboutDate(option.release.q50),
    ],
    [OPTION_WORDS.addedShortage, option.path.length === 0 ? '' : addedShortageWords(option.addedShortage)],
  ]
  return (
    <dl className="option-facts">
      {facts
        .filter(([, value]) => value !== '')
        .map(([term, value]) => (
          <div key={term}>
            <dt>{term}</dt>
            <dd>{value}</dd>
          </div>
        ))}
    </dl>
  )
}

function Take({ option, rank }: { readonly option: PlacementOption; readonly rank: number }) {
  return (
    <div className="do">
      {option.askFirst !== null && (
        <TextField
          name={`agreedBy-${option.key}`}
          label={DESK.askedAnswer}
          hint={DESK.askedHint}
          maxLength={120}
          autoComplete="off"
        />
      )}
      <input type="hidden" name={`places-${option.key}`} value={option.placesTonight.length} />
      <Button
        name="take"
        value={option.key}
        weight={rank === 1 ? 'filled' : 'outlined'}
        {...(rank === 1 && { keys: 'Ctrl Enter' })}
      >
        {takeWords(rank)}
      </Button>
      {option.askFirst !== null && canBeAsked(option) && (
        <Button name="ask" value={option.key}>
          {ASK.askNow}
        </Button>
      )}
    </div>
  )
}

import { Section } from '#app/_ui/section.tsx'
import type { DayNumber } from '#lib/domain/day.ts'
import type { RankedOptions } from '#lib/domain/option.ts'
import { DESK } from '#lib/words/desk.ts'
import { type CallSituation, OPTION_WORDS } from '#lib/words/option.ts'
import { ruledOutWho, ruledOutWhy } from '#lib/words/ruled-out.ts'
import { OptionItem } from './option-item.tsx'
import { sharedAxis } from './option-ribbon.ts'

type Props = {
  readonly ranked: RankedOptions
  readonly situation: CallSituation
  readonly horizonDays: number
  readonly mayTake: boolean
}

/** What can be done now, ranked, and what cannot, with the rule that cuts it. */
export function Options({ ranked, situation, horizonDays, mayTake }: Props) {
  const axis = sharedAxis(ranked.options, situation.today, horizonDays)
  return (
    <div className="options" id="options" tabIndex={-1}>
      <div className="options-head">
        <h2>{OPTION_WORDS.heading}</h2>
        <p>{DESK.optionsNote}</p>
      </div>
      <ol className="option-list">
        {ranked.options.map((option, at) => (
          <OptionItem
            key={option.key}
            option={option}
            rank={at + 1}
            axis={axis}
            situation={situation}
            horizonDays={horizonDays}
            mayTake={mayTake}
          />
        ))}
      </ol>
      <RuledOutList ranked={ranked} today={situation.today} />
    </div>
  )
}

function RuledOutList({ ranked, today }: { readonly ranked: RankedOptions; readonly today: DayNumber }) {
  if (ranked.ruledOut.length === 0) return null
  return (
    <Section id="ruled-out" head={OPTION_WORDS.ruledOut} note={OPTION_WORDS.ruledOutWhy}>
      <ul className="ruled-out">
        {ranked.ruledOut.map(cut => (
          <li key={`${JSON.stringify(cut.who)}${cut.rule}`}>
            <b>{ruledOutWho(cut.who)}</b> {ruledOutWhy(cut, today)}.
          </li>
        ))}
      </ul>
    </Section>
  )
}

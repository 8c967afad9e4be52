import { Actions, ButtonLink } from '#app/_ui/button.tsx'
import { Answer, Section } from '#app/_ui/section.tsx'
import type { CallOutcome } from '#lib/service/call-outcome.ts'
import { paths } from '#lib/web/paths.ts'
import { dayAndClock } from '#lib/words/dates.ts'
import { DESK, sayReferenceWords, shownWords, takenWords } from '#lib/words/desk.ts'
import { type CallSituation, optionTitle, placeTonightWords, tellFinder } from '#lib/words/option.ts'

type Props = {
  readonly outcome: CallOutcome
  readonly zone: string
  readonly situation: CallSituation
}

/** A call that was answered: the reference to say, what to read aloud, what was shown. */
export function Taken({ outcome, zone, situation }: Props) {
  const { option, references } = outcome
  const [first] = references
  const centreId = option?.to?.kind === 'centre' ? Number(option.to.id) : null
  return (
    <>
      <Answer
        reference={first ?? DESK.takenTitle}
        place={first === undefined ? undefined : DESK.sayReference}
        sentence={takenWords(references, option?.to?.name ?? '')}
        basis={`${dayAndClock(outcome.at, zone)}${outcome.by === null ? '' : `, ${outcome.by}`}. ${option === undefined ? '' : placeTonightWords(option)}`}
      >
        <Actions>
          {first !== undefined && (
            <ButtonLink weight="filled" href={paths.casualty(first)}>
              {DESK.toCasualty}
            </ButtonLink>
          )}
          {centreId !== null && <ButtonLink href={paths.weeksOfCentre(centreId)}>{DESK.toWeeks}</ButtonLink>}
        </Actions>
      </Answer>
      {option !== undefined && (
        <Section id="say" head={DESK.sayToFinder} strong>
          <ul className="aloud-list">
            {first !== undefined && <li>{sayReferenceWords(first)}</li>}
            {tellFinder(option, situation).map(line => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        </Section>
      )}
      <Section id="shown" head={DESK.shown}>
        <ol className="shown">
          {outcome.shown.map(one => (
            <li key={one.key} aria-current={one.key === outcome.takenKey ? 'true' : undefined}>
              {shownWords(optionTitle(one, situation.today), one.total, one.key === outcome.takenKey)}
            </li>
          ))}
        </ol>
        {outcome.reason !== null && <p>{outcome.reason}</p>}
      </Section>
    </>
  )
}

import { Actions, ButtonLink } from '#app/_ui/button.tsx'
import { Answer, Section } from '#app/_ui/section.tsx'
import { AskLines } from '#app/(desk)/asks/_parts/ask-lines.tsx'
import type { AskLine } from '#lib/service/ask.ts'
import type { CallOutcome } from '#lib/service/call-outcome.ts'
import { paths } from '#lib/web/paths.ts'
import { ASK, waitsFor } from '#lib/words/ask.ts'
import { dayAndClock } from '#lib/words/dates.ts'
import { DESK, sayReferenceWords, shownWords, takenWords } from '#lib/words/desk.ts'
import { type CallSituation, optionTitle, placeTonightWords, tellFinder } from '#lib/words/option.ts'

type Props = {
  readonly asks: readonly AskLine[]
  readonly now: Date
  readonly outcome: CallOutcome
  readonly zone: string
  readonly situation: CallSituation
}

/** A call that was answered: the reference to say, what to read aloud, what was shown. */
export function Taken({ outcome, zone, situation, asks, now }: Props) {
  const { option, references } = outcome
  const [first] = references
  const centreId = option?.to?.kind === 'centre' ? Number(option.to.id) : null
  return (
    <>
      <Answer
        reference={first ?? DESK.takenTitle}
        place={first === undefined ? undefined : DESK.sayReference}
        sentence={takenSentence(outcome, asks)}
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
      {asks.length > 0 && (
        <Section id="asks" head={ASK.title} note={ASK.note} strong>
          <AskLines
            asks={asks}
            caption={ASK.title}
            isAboutOne
            empty={{ sentence: ASK.none, coming: ASK.noneComing }}
            now={now}
            zone={zone}
          />
        </Section>
      )}
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

/** Where it goes; while an answer is awaited, whose. */
function takenSentence({ references, option }: CallOutcome, asks: readonly AskLine[]): string {
  const ofCentres = asks.filter(({ to }) => to.kind === 'centre')
  const waiting = ofCentres.find(({ state }) => state === 'put')
  const agreed = ofCentres.find(({ state }) => state === 'yes')
  if (waiting !== undefined) return waitsFor(references, waiting.to.name)
  if (agreed === undefined && ofCentres.length > 0) return ASK.nobodyYes
  return takenWords(references, agreed?.to.name ?? option?.to?.name ?? '')
}

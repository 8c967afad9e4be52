import { Notice } from '#app/_ui/notice.tsx'
import { Section } from '#app/_ui/section.tsx'
import { OneButton } from '#app/(desk)/calls/_parts/one-button.tsx'
import { type CentreWord, daysOffered, ROUNDS_OFFERED } from '#lib/domain/centre-word.ts'
import { dayOfInstant } from '#lib/domain/day.ts'
import { CENTRE_WORD, dayButton, noMoreWords, roundsButton, roundsSaid } from '#lib/words/centre-word.ts'
import { saidNoMore, saidRounds, tookWordBack } from '../actions.ts'
import { OneTap } from './centre-says.tsx'

type Props = {
  readonly centreId: number
  readonly words: readonly CentreWord[]
  readonly maySay: boolean
  readonly now: Date
  readonly zone: string
}

/** What the centre says of itself, and the buttons that say it. */
export function WhatWeTake({ centreId, words, maySay, now, zone }: Props) {
  const noMore = words.find(({ kind }) => kind === 'no-more')
  const feeding = words.find(({ kind }) => kind === 'feeding-rounds')
  if (!maySay && words.length === 0) return null
  const back = (kind: CentreWord['kind'], text: string) =>
    maySay && <OneButton action={tookWordBack} text={text} fields={{ centreId: String(centreId), kind }} />
  return (
    <Section id="take" head={CENTRE_WORD.head} note={CENTRE_WORD.note}>
      {noMore !== undefined && (
        <Notice
          kind="mind"
          sentence={noMoreWords(noMore.until, now, zone)}
          todo={back('no-more', CENTRE_WORD.takeAgain)}
        />
      )}
      {feeding !== undefined && feeding.rounds !== null && (
        <Notice
          kind="mind"
          sentence={roundsSaid(feeding.rounds, feeding.until, now, zone)}
          kept={CENTRE_WORD.roundsNote}
          todo={back('feeding-rounds', CENTRE_WORD.feedAgain)}
        />
      )}
      {maySay && (
        <>
          <OneTap
            action={saidNoMore}
            centreId={centreId}
            legend={CENTRE_WORD.noMore}
            name="day"
            choices={daysOffered(now, zone).map(day => ({
              value: String(day),
              text: dayButton(day, dayOfInstant(now, zone)),
              isNow: noMore !== undefined && dayOfInstant(noMore.until, zone) === day,
            }))}
          />
          <OneTap
            action={saidRounds}
            centreId={centreId}
            legend={CENTRE_WORD.rounds}
            note={CENTRE_WORD.roundsNote}
            name="rounds"
            choices={ROUNDS_OFFERED.map(rounds => ({
              value: String(rounds),
              text: roundsButton(rounds),
              isNow: feeding?.rounds === rounds,
            }))}
          />
        </>
      )}
    </Section>
  )
}

import type { HorizonShown } from '#lib/service/judged-view.ts'
import { alikeSentence, beatsSentence, betterSentence, type Guess } from '#lib/words/judged.ts'

/** The guesses that the forecast was nearer than, beyond doubt. */
export function beatenBy({ guesses, better, alike }: HorizonShown): Guess[] {
  return guesses.flatMap(({ guess, kind }) =>
    kind === 'judged' && !better.includes(guess) && !alike.includes(guess) ? [guess] : [],
  )
}

/** Who was nearer, in sentences: first the guesses that did better. */
export function verdictWords(row: HorizonShown): string {
  return [betterSentence(row.better), beatsSentence(beatenBy(row)), alikeSentence(row.alike)]
    .filter(Boolean)
    .join(' ')
}

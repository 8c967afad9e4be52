import type { HorizonShown } from '#lib/service/judged-view.ts'
import {
  alikeSentence,
  beatsSentence,
  betterSentence,
  type Guess,
  JUDGED,
  nearerName,
} from '#lib/words/judged.ts'

/** The guesses that the forecast was nearer than, beyond doubt. */
export function beatenBy({ guesses, better, alike }: HorizonShown): Guess[] {
  return guesses.flatMap(({ guess, kind }) =>
    kind === 'judged' && !better.includes(guess) && !alike.includes(guess) ? [guess] : [],
  )
}

/** Whether days are enough to tell anybody apart. */
function canTell({ guesses }: HorizonShown): boolean {
  return guesses.some(one => one.kind === 'judged' && one.range !== null)
}

/** Who was nearer, in a cell. */
export function nearerCell(row: HorizonShown): string {
  return canTell(row) ? nearerName(row.better, row.alike, beatenBy(row)) : JUDGED.cannotTellShort
}

/** Who was nearer, in sentences: first the guesses that did better. */
export function verdictWords(row: HorizonShown): string {
  if (!canTell(row)) return JUDGED.cannotTell
  return [betterSentence(row.better), beatsSentence(beatenBy(row)), alikeSentence(row.alike)]
    .filter(Boolean)
    .join(' ')
}

import { chanceTone, chanceWords } from '#lib/words/chance.ts'

/** A chance of something wanted, as number and word; colour only repeats them. */
export function ChanceWord({ chance }: { readonly chance: number }) {
  return <span className={`chance ${chanceTone(chance)}`}>{chanceWords(chance)}</span>
}

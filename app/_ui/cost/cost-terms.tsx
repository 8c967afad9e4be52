import { COST_WORDS, placeDays } from '#lib/words/cost.ts'
import { hundredthsThatAddUp } from './rounding.ts'

export type CostTerm = {
  /** "Drive tonight". */
  readonly label: string
  /** "11 km, 20 min". */
  readonly detail: string
  /** What it costs, in place-days. */
  readonly placeDays: number
}
export type CostTermsProps = { readonly terms: readonly CostTerm[] }

/** What an option costs, term beside term, adding up to the total at the right. */
export function CostTerms({ terms }: CostTermsProps) {
  const { terms: parts, total } = hundredthsThatAddUp(terms.map(term => term.placeDays))
  return (
    <dl className="cost" aria-label={COST_WORDS.caption}>
      {terms.map((term, i) => (
        <div key={term.label}>
          <dt>{term.label}</dt>
          <dd className="what">{term.detail}</dd>
          <dd className="days">{placeDays(parts[i] ?? 0)}</dd>
        </div>
      ))}
      <div className="total">
        <dt>{COST_WORDS.total}</dt>
        <dd className="what">{COST_WORDS.unit}</dd>
        <dd className="days">{placeDays(total)}</dd>
      </div>
    </dl>
  )
}

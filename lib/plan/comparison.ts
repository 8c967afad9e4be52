/**
 * Why one option costs more or less than another, by kind of cost.
 * Promise: the differences by kind add up to the difference of the totals; the largest comes first.
 */
import type { Comparison, CostKind, CostTerm, PlacementOption } from '#lib/domain/option.ts'

/** Differences smaller than this say nothing worth a sentence: a fiftieth of a place-day is under a km of driving. */
const WORTH_SAYING_DAYS = 0.02

/**
 * `option` set beside `other`: positive differences are what `option` costs more. In place-days; kinds that differ by
 * less than 0.02 are left out of `byKind`.
 */
export function compare(option: PlacementOption, other: PlacementOption): Comparison {
  const kinds = [...new Set([...option.terms, ...other.terms].map(term => term.kind))]
  const byKind = kinds
    .map(kind => differenceOf(kind, option, other))
    .filter(({ difference }) => Math.abs(difference) >= WORTH_SAYING_DAYS)
    .sort((a, b) => Math.abs(b.difference) - Math.abs(a.difference) || (a.kind < b.kind ? -1 : 1))
  const { key, kind, to } = other
  return {
    with: { key, kind, to: to === null ? null : { id: to.id, name: to.name } },
    difference: option.total - other.total,
    byKind,
  }
}

function differenceOf(kind: CostKind, option: PlacementOption, other: PlacementOption) {
  const [mine, theirs] = [termsOf(option, kind), termsOf(other, kind)]
  const difference = sum(mine) - sum(theirs)
  const dearer = difference > 0 ? mine : theirs
  const term = (dearer.length > 0 ? dearer : [...mine, ...theirs]).reduce((largest, each) =>
    each.value > largest.value ? each : largest,
  )
  return { kind, difference, term }
}

function termsOf(option: PlacementOption, kind: CostKind): readonly CostTerm[] {
  return option.terms.filter(term => term.kind === kind)
}

function sum(terms: readonly CostTerm[]): number {
  return terms.reduce((total, { value }) => total + value, 0)
}

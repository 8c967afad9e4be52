/**
 * Why an option costs what it costs, and why it stands before or behind another: sentences made from the terms.
 * Promise: only terms that are there are named, the largest first. Units: place-days, rounded km, per cent.
 */
import type { HousingType } from '#lib/domain/housing.ts'
import type { Comparison, CostReason, CostTerm, PlacementOption } from '#lib/domain/option.ts'
import { capital } from './capital.ts'
import { perCent } from './chance.ts'

/** How many reasons a sentence carries before it stops being read. */
const REASONS_SAID = 2
/** Shares closer to 1 than this are said as certain. */
const CERTAIN = 0.995

/** "hospital cage" for `hospital-cage`. */
export function housingWords(housing: HousingType): string {
  return housing.replaceAll('-', ' ')
}

/** "0.9 place-days". */
function days(value: number): string {
  const shown = value.toFixed(1)
  return shown === '1.0' ? '1.0 place-day' : `${shown} place-days`
}

/** The name of a term where terms stand in a row. */
export function termLabel(term: CostReason): string {
  switch (term.kind) {
    case 'no place on arrival':
      return term.isTonight ? 'No proper place tonight' : 'No proper place on arrival'
    case 'first stage':
    case 'later stage':
      return capital(term.stage)
    case 'transfer':
      return `Move to ${term.to.name}`
    case 'drive':
      return 'Drive now'
    case 'later drive':
      return `Drive to ${term.to.name}`
    case 'kept till morning':
      return 'Kept till morning'
    case 'redirected':
      return 'Sent outside the network'
    case 'refused':
      return 'Refused'
  }
}

/** What a term is made of: the figures and the weight they are multiplied by. */
export function termDetail(term: CostReason): string {
  switch (term.kind) {
    case 'no place on arrival':
      return `${term.short.toFixed(term.isTonight ? 0 : 2)} without a place × ${term.weight}`
    case 'first stage':
    case 'later stage':
      return term.damping === null
        ? `no ${housingWords(term.housing)} there: every day counts`
        : `${term.undamped.toFixed(1)} days short × ${term.damping}`
    case 'transfer':
      return `${perCent(term.probability)} × ${term.weight}`
    case 'drive':
      return `${Math.round(term.km)} km, ${term.kmPerPlaceDay} km a place-day`
    case 'later drive':
      return `${Math.round(term.km)} km × ${perCent(term.probability)}, ${term.kmPerPlaceDay} km a place-day`
    case 'kept till morning':
    case 'redirected':
    case 'refused':
      return 'policy of ours'
  }
}

/** What a term says against the option that has it, as the middle of a sentence. */
export function againstWords(term: CostReason): string {
  switch (term.kind) {
    case 'no place on arrival':
      return term.isTonight
        ? `${term.centre.name} has no proper place free tonight`
        : `${term.centre.name} may have no proper place free tomorrow`
    case 'first stage':
    case 'later stage':
      return term.damping === null
        ? `${term.centre.name} has no ${housingWords(term.housing)} for ${term.stage}`
        : `${term.centre.name} may have no ${housingWords(term.housing)} free during ${term.stage}`
    case 'transfer':
      return term.probability >= CERTAIN
        ? `it has to be moved on to ${term.to.name}`
        : `it is moved on to ${term.to.name} if it lives to need it, ${perCent(term.probability)}`
    case 'drive':
      return `the drive to ${term.to.name} is ${Math.round(term.km)} km`
    case 'later drive':
      return `the later drive to ${term.to.name} is ${Math.round(term.km)} km`
    case 'kept till morning':
      return 'it waits until the morning'
    case 'redirected':
      return 'the network would not care for it itself'
    case 'refused':
      return 'nobody of ours would take it in'
  }
}

/** Why the first option comes first. */
export function whyFirst(option: PlacementOption): string {
  if (option.orderRule === 'leave alone')
    return 'It is young, whole and where its parents find it: the best help is to leave it.'
  if (option.orderRule === 'notifiable suspect') {
    return 'A suspected notifiable disease is examined outside and reported; nothing is brought in before the authority’s leave.'
  }
  const { comparison } = option
  if (comparison === null) return 'Nothing else can be offered.'
  const other = otherName(comparison)
  const against = reasonsOn(comparison, 'theirs')
  const less = `${days(-comparison.difference)} less than ${other}`
  if (comparison.difference >= 0) return `As good as ${other}; it is named first.`
  const isFurther = option.kind.startsWith('admit') && !option.isNearest
  const start = isFurther ? `Not the nearest, but costs ${less}` : `Costs ${less}`
  return against === '' ? `${start}.` : `${start}: ${against}.`
}

/** Why an option does not come first. */
export function whyNot(option: PlacementOption): string {
  if (option.orderRule === 'refusal comes last') {
    return 'Advice for want of room is a refusal: it comes last, whatever the others cost.'
  }
  const { comparison } = option
  if (comparison === null) return ''
  if (comparison.difference <= 0)
    return `Costs no more than ${otherName(comparison)}, which comes first by rule or name.`
  const because = reasonsOn(comparison, 'mine')
  const more = `Costs ${days(comparison.difference)} more than ${otherName(comparison)}`
  const forIt = reasonsOn(comparison, 'theirs')
  return [
    because === '' ? `${more}.` : `${more}: ${because}.`,
    forIt === '' ? '' : `With ${otherName(comparison)}, ${forIt}.`,
  ]
    .filter(sentence => sentence !== '')
    .join(' ')
}

/** The largest differences on one side, as words; `mine` is where the option itself costs more. */
function reasonsOn({ byKind }: Comparison, side: 'mine' | 'theirs'): string {
  const terms: CostTerm[] = byKind
    .filter(({ difference }) => (side === 'mine' ? difference > 0 : difference < 0))
    .map(({ term }) => term)
  return terms.slice(0, REASONS_SAID).map(againstWords).join(', and ')
}

function otherName({ with: other }: Comparison): string {
  if (other.to === null) return other.kind === 'report' ? 'reporting it' : 'advice'
  switch (other.kind) {
    case 'admit':
      return `the whole stay at ${other.to.name}`
    case 'admit and move':
      return `${other.to.name} with a move later`
    case 'keep till morning':
      return `keeping it till morning for ${other.to.name}`
    default:
      return other.to.name
  }
}

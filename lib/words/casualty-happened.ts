/**
 * What happened to an animal, one sentence an entry.
 * Promise: says what was recorded and nothing more; what was corrected or taken back stays readable and says so. Times
 * are those of the event; an entry made later says when.
 */
import type { Found } from '#lib/domain/check-result.ts'
import type { CareStage } from '#lib/domain/housing.ts'
import type { Outcome } from '#lib/domain/outcome.ts'
import type { Side } from '#lib/domain/surgery.ts'
import { capital } from './capital.ts'
import { checkName, stageWords } from './care.ts'
import { foundWords, type Gone, sideWords } from './check.ts'
import { dayAndClock } from './dates.ts'
import { type Grouped, groupedWords } from './group.ts'
import { outcomeWords } from './outcome.ts'
import { type SaidOf, saidWords } from './round-entry.ts'
import { vetWordSaid } from './vet-word.ts'
import { placeWords } from './who-is-where.ts'

type Place = {
  readonly keeper: 'finder' | 'driver' | 'practice' | 'centre' | 'nobody'
  readonly keeperName: string | null
  readonly centre: string | null
  readonly enclosure: string | null
  readonly outcome: Outcome | null
}

export type Happening =
  | ({
      readonly kind: 'keeping'
      readonly isArrival: boolean
      readonly overrideReason: string | null
    } & Place)
  | { readonly kind: 'began' | 'ready'; readonly stage: CareStage | null }
  | {
      readonly kind: 'check'
      readonly slug: string
      readonly what: string
      readonly passed: boolean
      readonly result: string | null
      readonly found: Found | null
      readonly signedBy: string | null
      /** Promises that it took away or moved. */
      readonly displaced: readonly Gone[]
    }
  | { readonly kind: 'surgery'; readonly side: Side; readonly what: string }
  | { readonly kind: 'vet-word'; readonly inDays: number; readonly saidBy: string }
  | { readonly kind: 'weight'; readonly grams: number }
  /** Tapped on the round, and not standing. */
  | { readonly kind: 'tap'; readonly tap: SaidOf }
  | ({ readonly kind: 'group' } & Grouped)
  | { readonly kind: 'note'; readonly words: string | null }
  | { readonly kind: 'plan'; readonly versionNo: number; readonly because: string }
  | { readonly kind: 'identified'; readonly species: string; readonly age: string }
  | {
      readonly kind: 'decision'
      readonly rank: number
      readonly shown: number
      readonly reason: string | null
    }

/** The entry in words. */
export function happenedWords(happening: Happening): string {
  switch (happening.kind) {
    case 'keeping':
      return keepingWords(happening)
    case 'began':
      return `${stageOr(happening.stage)} began`
    case 'ready':
      return `Ready to leave ${stageOr(happening.stage).toLowerCase()}`
    case 'check':
      return checkDoneWords(happening)
    case 'surgery':
      return happening.side === 'no side'
        ? `Operated: ${happening.what}`
        : `Operated: ${sideWords(happening.side).toLowerCase()}, ${happening.what}`
    case 'vet-word':
      return vetWordSaid(happening)
    case 'weight':
      return gramsWords(happening.grams)
    case 'tap':
      return saidWords(happening.tap)
    case 'group':
      return groupedWords(happening)
    case 'note':
      return happening.words ?? 'A note that was erased'
    case 'plan':
      return happening.versionNo === 1
        ? `Care plan: ${happening.because}`
        : `Expectations revised: ${happening.because}`
    case 'identified':
      return `Named: ${happening.species}, ${ageWords(happening.age)}`
    case 'decision': {
      const why = happening.reason === null ? '' : `: ${happening.reason}`
      return `Option ${happening.rank} of ${happening.shown} taken${why}`
    }
  }
}

function keepingWords(place: Extract<Happening, { kind: 'keeping' }>): string {
  const why = place.overrideReason === null ? '' : `. Although it does not fit: ${place.overrideReason}`
  if (place.keeper === 'nobody') return place.outcome === null ? 'Case closed' : outcomeWords(place.outcome)
  const where = placeWords(place)
  if (place.keeper === 'centre') return `${place.isArrival ? 'Arrived' : 'Moved'}: ${where}${why}`
  return place.keeper === 'practice' ? `With a vet: ${where}` : capital(where)
}

function checkDoneWords(check: Extract<Happening, { kind: 'check' }>): string {
  const { slug, what, passed, result, found, signedBy } = check
  const said = found === null ? '' : `${foundWords(found).toLowerCase()}, `
  const signed = signedBy === null ? '' : ` (${signedBy})`
  const head = `${checkName(slug)}, ${what}: ${said}${passed ? 'passed' : 'not passed'}${signed}`
  return result === null || result === '' ? head : `${head}. ${result}`
}

/** "214 g", "9.8 kg"; kilograms from five on. */
export function gramsWords(grams: number): string {
  return grams >= 5000 ? `${Math.round(grams / 10) / 100}\u00a0kg` : `${Math.round(grams * 10) / 10}\u00a0g`
}

/** "adult", "young", "age not known". */
export function ageWords(age: string): string {
  return age === 'unknown' ? 'age not known' : age
}

function stageOr(stage: CareStage | null): string {
  return stage === null ? 'A stage that is no longer in the plan' : stageWords(stage)
}

/** What was entered well after it happened says so. */
export function enteredLate(at: Date, zone: string): string {
  return `entered ${dayAndClock(at, zone)}`
}

/** "Taken back: Died", for the entry that does it. */
export function takesBackWords(what: Happening): string {
  return `Taken back: ${happenedWords(what)}`
}

/** "No place then: Blackbird was recorded in it since Tue 24 Nov, 09:10." */
export function metThenWords(species: string, since: Date, zone: string): string {
  return `No place then: ${species} was recorded in it since ${dayAndClock(since, zone)}.`
}

/** "12 older entries". */
export function olderWords(count: number): string {
  return count === 1 ? '1 older entry' : `${count} older entries`
}

export const HAPPENED = {
  corrected: 'Corrected since',
  takenBack: 'Taken back since',
  wasWrong: 'Was this wrong?',
  waits: 'Two versions: waits for a person on the round',
  setAside: 'Set aside: the other version stood',
  shown: 'What was shown',
  takeBack: 'Take this back',
} as const

/**
 * What each kind of check can find, and whether that passes it.
 * Promise: every finding of a check either passes or does not; a check without findings of its own is passed or not.
 * A finding that ends the matter (united, out, clear) is not looked for again, however often the check repeats.
 */
import { Failure } from '#lib/kernel/failure.ts'

export const FOUND = [
  'united',
  'partly united',
  'not united',
  'as it should be',
  'not as it should be',
  'off',
  'still on',
  'out',
  'signed to stay',
  'still in',
  'none in place',
  'not signed',
  'changed',
  'off for good',
  'not changed',
  'holds or rises',
  'falls',
  'at the weight',
  'below the weight',
  'flies well',
  'flies poorly',
  'does not fly',
  'fit',
  'not fit yet',
  'good',
  'not good yet',
  'feeds itself',
  'needs feeding',
  'clear',
  'not clear',
  'may go',
  'not yet',
] as const
export type Found = (typeof FOUND)[number]

export type FoundChoice = { readonly found: Found; readonly passed: boolean; readonly isFinal: boolean }

const passes = (found: Found): FoundChoice => ({ found, passed: true, isFinal: false })
const settles = (found: Found): FoundChoice => ({ found, passed: true, isFinal: true })
const fails = (found: Found): FoundChoice => ({ found, passed: false, isFinal: false })

const PLUMAGE = [passes('good'), fails('not good yet')]
const FITNESS = [passes('fit'), fails('not fit yet')]

/** By kind of check; common practice, no source, except that union is asked of radiographs (trade S62). */
const CHOICES: Readonly<Record<string, readonly FoundChoice[]>> = {
  radiograph: [
    settles('united'),
    fails('partly united'),
    fails('not united'),
    settles('as it should be'),
    fails('not as it should be'),
  ],
  'fixator-off': [settles('off'), fails('still on')],
  'pin-out': [settles('out'), settles('signed to stay'), fails('still in')],
  'implant-signed': [settles('none in place'), settles('signed to stay'), fails('not signed')],
  'bandage-change': [passes('changed'), settles('off for good'), fails('not changed')],
  weigh: [passes('holds or rises'), fails('falls')],
  'release-weight': [passes('at the weight'), fails('below the weight')],
  'flight-test': [passes('flies well'), fails('flies poorly'), fails('does not fly')],
  'release-check': FITNESS,
  'fit-to-wash': FITNESS,
  'feather-check': PLUMAGE,
  'moult-check': PLUMAGE,
  'waterproof-test': PLUMAGE,
  'self-feeding': [settles('feeds itself'), fails('needs feeding')],
  'quarantine-clear': [settles('clear'), fails('not clear')],
  'vet-word': [settles('may go'), fails('not yet')],
}

/** Looked for every day until it is there, and then no more. */
const UNTIL_FOUND: readonly string[] = ['companion', 'reunion']

/** What a check can find; empty for one that is only passed or not. */
export function foundChoices(slug: string): readonly FoundChoice[] {
  return Object.hasOwn(CHOICES, slug) ? (CHOICES[slug] ?? []) : []
}

export type CheckSaid = {
  readonly found?: Found | undefined
  readonly passed?: boolean | undefined
  readonly signedBy: string
}

export type CheckFound = {
  readonly passed: boolean
  readonly found: Found | null
  readonly isFinal: boolean
  /** The vet who signed, where somebody did. */
  readonly signedBy: string | null
}

/** The result of a check. Failure 'invalid' where nothing is said, another check's finding, or no vet signs. */
export function checkFound(slug: string, { found, passed, signedBy }: CheckSaid): CheckFound {
  const signed = signedBy === '' ? null : signedBy
  if (found === undefined) {
    if (passed === undefined) throw invalid('found', 'missing')
    return { passed, found: null, isFinal: passed && UNTIL_FOUND.includes(slug), signedBy: signed }
  }
  const choice = foundChoices(slug).find(one => one.found === found)
  if (choice === undefined) throw invalid('found', 'not-listed')
  if (found === 'signed to stay' && signed === null) throw invalid('signedBy', 'signature-names-the-vet')
  return { passed: choice.passed, found, isFinal: choice.isFinal, signedBy: signed }
}

function invalid(field: string, reason: string): Failure {
  return new Failure('invalid', { field, problems: [{ field, reason }] })
}

/**
 * What is tapped on the round: one line about one animal, or the whole centre as shown.
 * Promise: flat fields, as a form and a phone's queue send them alike; what was seen when it was tapped comes along, so
 * that somebody else's word meanwhile is noticed. Times are told as how long ago, since a phone's clock may be wrong.
 */
import { z } from 'zod'
import { FOUND, type Found, foundChoices } from './check-result.ts'
import { ALIVE_ANSWERS, type AliveAnswer, WHERE_NOW, type WhereNow } from './outcome.ts'
import { idInput } from './record.ts'
import { decimalText } from './text.ts'

export const ROUND_KINDS = [
  'counted',
  'weight',
  'check',
  'stage',
  'moved',
  'out',
  'not-there',
  'undo',
] as const
export type RoundKind = (typeof ROUND_KINDS)[number]

/** What a phone kept longer than this was never about today's round; common practice, no source. */
const AGO_DAYS_MAX = 14
const MS_PER_DAY = 86_400_000
const GRAMS_MAX = 1_000_000
const KEY_MIN = 8
const KEY_MAX = 80

const where = z.enum([...WHERE_NOW.alive, ...WHERE_NOW.dead, ...WHERE_NOW['not known']])

/** What was said, as it is kept. */
export const roundSaid = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('counted'), before: z.iso.datetime().nullable().optional() }),
  z.object({ kind: z.literal('weight'), grams: z.number().positive().max(GRAMS_MAX) }),
  /** What was found, of the kind of check; else whether it was passed. */
  z
    .object({
      kind: z.literal('check'),
      checkId: idInput,
      found: z.enum(FOUND).optional(),
      passed: z.boolean().optional(),
    })
    .refine(check => (check.found === undefined) !== (check.passed === undefined)),
  z.object({ kind: z.literal('stage'), stageNo: idInput }),
  /** Without an enclosure: in the building. */
  z.object({ kind: z.literal('moved'), enclosureId: idInput.nullable() }),
  z.object({ kind: z.literal('out'), alive: z.enum(ALIVE_ANSWERS), whereNow: where }),
  z.object({ kind: z.literal('not-there') }),
  /** With the places that the animal had given up: those kept for it again, and those that others have by now. */
  z.object({
    kind: z.literal('undo'),
    entryId: idInput,
    keptAgain: z.array(idInput).optional(),
    lost: z.array(idInput).optional(),
  }),
])
export type RoundSaid = z.infer<typeof roundSaid>

const blank = z.literal('').transform(() => undefined)
const optionalId = z.union([blank, idInput]).optional()

const fields = z.object({
  key: z.string().min(KEY_MIN).max(KEY_MAX),
  centreId: idInput,
  casualtyId: optionalId,
  /** Which button: "weight", "check 12 flies well", "stage 2", "moved 7", "out alive:in the wild", "not-there". */
  tap: z.string().max(120),
  grams: z.string().optional(),
  enclosureId: z.string().optional(),
  /** The fact of where it is, and its stage, that the page showed. */
  seenKeepingId: optionalId,
  seenStageNo: optionalId,
  agoMs: z
    .union([
      blank,
      z.coerce
        .number()
        .min(0)
        .max(AGO_DAYS_MAX * MS_PER_DAY),
    ])
    .optional(),
})

export type RoundEntryInput = {
  readonly key: string
  readonly centreId: number
  readonly casualtyId: number | undefined
  readonly said: RoundSaid
  readonly seen: { readonly keepingId: number | undefined; readonly stageNo: number | undefined }
  readonly agoMs: number
}

/** One tap, read; a weight without a number, or a button that is none of ours, is a field's problem. */
export const roundEntryInput = fields.transform((sent, context): RoundEntryInput => {
  const { key, centreId, casualtyId, seenKeepingId, seenStageNo, agoMs = 0 } = sent
  const said = saidOf(sent)
  const read = roundSaid.safeParse(said)
  if (!read.success || (casualtyId === undefined && !NEEDS_NO_ANIMAL.has(read.data.kind))) {
    const field = FIELDS[String(said['kind'])] ?? 'tap'
    const rule = field === 'grams' ? (sent.grams?.trim() ? 'not-number' : 'missing') : 'not-listed'
    context.addIssue({ code: 'custom', path: [field], input: sent, params: { rule } })
    return z.NEVER
  }
  const seen = { keepingId: seenKeepingId, stageNo: seenStageNo }
  return { key, centreId, casualtyId, said: read.data, seen, agoMs }
})

/** Which field of the form holds what a button needs beside itself. */
const FIELDS: Readonly<Record<string, string>> = { weight: 'grams', moved: 'enclosureId' }

const NEEDS_NO_ANIMAL: ReadonlySet<RoundKind> = new Set(['counted', 'undo'])

function saidOf({ tap, grams, enclosureId }: z.infer<typeof fields>): Readonly<Record<string, unknown>> {
  const [kind = '', ...rest] = tap.split(' ')
  const words = rest.join(' ')
  switch (kind) {
    case 'weight':
      return { kind, grams: decimalText.safeDecode(grams?.trim() ?? '').data }
    case 'check':
      return { kind, checkId: rest[0], ...foundOf(rest.slice(1).join(' ')) }
    case 'stage':
      return { kind, stageNo: words }
    case 'moved':
      return { kind, enclosureId: placeOf(words === '' ? (enclosureId ?? '') : words) }
    case 'out':
      return { kind, alive: words.split(':')[0], whereNow: words.split(':')[1] }
    case 'undo':
      return { kind, entryId: words }
    default:
      return { kind }
  }
}

function foundOf(word: string): Readonly<Record<string, unknown>> {
  return word === 'yes' || word === 'no' ? { passed: word === 'yes' } : { found: word }
}

/** "nowhere": in the building, in no enclosure. */
function placeOf(typed: string): string | null {
  return typed === 'nowhere' ? null : typed
}

/** Checks that a round does not decide: what a picture shows, what is in the animal, what a vet says. */
const NOT_ON_A_ROUND = new Set(['radiograph', 'fixator-off', 'pin-out', 'implant-signed', 'vet-word'])

/** What may be tapped for a check, with what it finds; empty for one that is recorded on the card. */
export function checkTaps(
  id: number,
  slug: string,
): { readonly tap: string; readonly found: Found | boolean }[] {
  if (NOT_ON_A_ROUND.has(slug)) return []
  const choices = foundChoices(slug)
  const found = choices.length === 0 ? [true, false] : choices.map(one => one.found)
  return found.map(one => ({
    tap: `check ${id} ${one === true ? 'yes' : one === false ? 'no' : one}`,
    found: one,
  }))
}

/** What may be tapped for a pair of answers about where an animal went. */
export function outTap(alive: AliveAnswer, whereNow: WhereNow): string {
  return `out ${alive}:${whereNow}`
}

/** The endings a round can find, most usual first; whatever else there is stands on the card. */
export const ROUND_ENDINGS = [
  ['dead', 'died by itself'],
  ['alive', 'in the wild'],
  ['alive', 'got away'],
  ['dead', 'euthanased by a vet'],
] as const satisfies readonly (readonly [AliveAnswer, WhereNow])[]

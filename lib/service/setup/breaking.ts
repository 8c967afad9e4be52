/**
 * A change of setup that would break current stays says which, before it is made.
 * Promise: the change is tried out inside its own transaction; what it breaks is what stood before and does not stand
 * after. Unless that is exactly what somebody has confirmed, everything is rolled back and the list is answered.
 */
import { z } from 'zod'
import type { Grant } from '#lib/authz/demand.ts'
import type { EntryTx } from '#lib/db/entry.ts'
import { listStanding } from '#lib/db/setup/standing.ts'
import { type Broken, brokenBy, fingerprintOf, joined } from '#lib/domain/breaking.ts'
import { parse } from '#lib/domain/parse.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { breaksWords, brokenLine } from '#lib/words/setup-refusal.ts'

const confirmForm = z.object({ confirm: z.string().default('') })

type Tried = {
  readonly scope: readonly number[] | 'everywhere'
  /** The form, which may carry the fingerprint of what was confirmed. */
  readonly input: unknown
  readonly now: Date
  /** What the change does to somebody beyond taking a place. */
  readonly also?: readonly Broken[]
}

/** Runs the change; throws Failure('rule', breaks-current) with the list unless all that it breaks was confirmed. */
export async function orAsk<T>(
  _grant: Grant,
  entry: EntryTx,
  { scope, input, now, also = [] }: Tried,
  change: () => Promise<T>,
): Promise<T> {
  const { confirm } = parse(confirmForm, input)
  const before = await listStanding(entry, scope, now)
  const done = await change()
  const broken = joined(brokenBy(before, await listStanding(entry, scope, now)), also)
  const fingerprint = fingerprintOf(broken)
  if (broken.length === 0 || confirm === fingerprint) return done
  throw new Failure('rule', {
    rule: 'breaks-current',
    data: {
      say: breaksWords(broken, confirm !== ''),
      breaks: broken.map(brokenLine),
      confirm: fingerprint,
    },
  })
}

/**
 * An operation as it is written down: when, on which side, what was done, what was left in the animal.
 * Promise: an implant is in place until it is out or a vet has signed that it stays. Surgery is a vet's act; here it is
 * only recorded.
 */
import { z } from 'zod'
import type { Found } from './check-result.ts'
import type { Moment } from './parse.ts'
import { idInput, occurred } from './record.ts'

export const SIDES = ['left', 'right', 'both', 'no side'] as const
export type Side = (typeof SIDES)[number]

export const IMPLANTS = ['pin', 'external fixator', 'wire', 'plate', 'suture', 'other'] as const
export type ImplantKind = (typeof IMPLANTS)[number]

export type ImplantState = 'in place' | 'out' | 'signed to stay'

const WHAT_MAX = 200

const kinds = z.array(z.enum(IMPLANTS)).max(IMPLANTS.length)

export const surgeryInput = (at: Moment) =>
  z.object({
    ...occurred(at),
    side: z.enum(SIDES),
    what: z.string().trim().min(1).max(WHAT_MAX),
    implants: z.union([kinds, z.enum(IMPLANTS).transform(kind => [kind])]).default([]),
  })

export const surgeryBackInput = z.object({ surgeryId: idInput })

/** Which implants a finding of a check speaks of, and what it says of them; undefined where it speaks of none. */
export function implantsSettledBy(
  slug: string,
  found: Found | null,
): { readonly kinds: readonly ImplantKind[]; readonly how: 'out' | 'signed to stay' } | undefined {
  const how = found === 'signed to stay' ? found : 'out'
  if (slug === 'fixator-off' && found === 'off') return { kinds: ['external fixator'], how: 'out' }
  if (slug === 'pin-out' && (found === 'out' || found === 'signed to stay')) return { kinds: ['pin'], how }
  if (slug === 'implant-signed' && (found === 'none in place' || found === 'signed to stay')) {
    return { kinds: IMPLANTS, how }
  }
  return undefined
}

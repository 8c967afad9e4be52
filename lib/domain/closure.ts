/**
 * A time in which an enclosure takes nobody.
 * Promise: it ends after it starts, or has no end yet. Who is still in is not refused: that is a list to move.
 */
import { z } from 'zod'
import { REASON_MAX } from './centre.ts'

export const closure = z
  .strictObject({
    enclosureId: z.int().positive().meta({ title: 'Enclosure' }),
    startsAt: z.date().meta({ title: 'Closed from' }),
    endsAt: z.date().nullable().meta({ title: 'Until', hint: 'Empty: until it is lifted' }),
    reason: z.string().trim().min(1).max(REASON_MAX).meta({ title: 'Reason' }),
  })
  .refine(one => one.endsAt === null || one.endsAt.getTime() > one.startsAt.getTime(), {
    path: ['endsAt'],
    params: { rule: 'closure_ends_after_it_starts' },
  })
export type Closure = z.infer<typeof closure>

/** Whether an enclosure is closed at an instant. */
export function isClosedAt(closures: readonly Pick<Closure, 'startsAt' | 'endsAt'>[], at: Date): boolean {
  return closures.some(
    one =>
      one.startsAt.getTime() <= at.getTime() && (one.endsAt === null || at.getTime() < one.endsAt.getTime()),
  )
}

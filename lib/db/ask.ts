/**
 * Asks: a request to one centre or one practice to take a casualty, and the referral it belongs to.
 * Promise: one yes a referral, by constraint; an ask that was put lapses by itself.
 */
import 'server-only'
import type { Prisma } from '#prisma/generated/client.ts'

export type AskPut = {
  readonly callId: number
  readonly casualtyId: number
  readonly to: { readonly kind: 'centre' | 'practice'; readonly id: number }
  readonly putAt: Date
  readonly lapsesAt: Date
  /** Who said yes on the phone; null while the answer is awaited. */
  readonly answeredBy: string | null
  /** A referral to a vet, or a place asked of a centre. */
  readonly isReferral: boolean
  readonly what: string
}

/** Writes an ask, with a referral of its own where a vet is asked. */
export async function createAsk(tx: Prisma.TransactionClient, ask: AskPut): Promise<number> {
  const referralId = ask.isReferral
    ? (
        await tx.referral.create({
          data: { casualtyId: ask.casualtyId, callId: ask.callId, what: ask.what, openedAt: ask.putAt },
          select: { id: true },
        })
      ).id
    : null
  const { id } = await tx.ask.create({
    data: {
      referralId,
      callId: ask.callId,
      casualtyId: ask.casualtyId,
      centreId: ask.to.kind === 'centre' ? ask.to.id : null,
      practiceId: ask.to.kind === 'practice' ? ask.to.id : null,
      state: ask.answeredBy === null ? 'put' : 'yes',
      putAt: ask.putAt,
      lapsesAt: ask.lapsesAt,
      answeredAt: ask.answeredBy === null ? null : ask.putAt,
      answeredByWords: ask.answeredBy,
    },
    select: { id: true },
  })
  return id
}

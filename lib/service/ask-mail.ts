/**
 * Links to an ask: made for a mail or to be sent by hand. Internal to lib/service.
 * Promise: the token is known only to whom the link is given; a new one by hand ends those before it.
 */
import type { Grant } from '#lib/authz/demand.ts'
import type { EntryTx } from '#lib/db/entry.ts'
import { createLink, revokeLinks } from '#lib/db/link.ts'
import { queueMail } from '#lib/db/outbox.ts'
import { env } from '#lib/env.ts'
import { ASK_MAIL, askMailBody } from '#lib/words/ask-page.ts'
import type { AskNetwork, MayAsk } from './ask-turn.ts'
import { newToken } from './link.ts'

/** How long a link can be opened; the ask it belongs to may end long before. Ours. */
const LINK_DAYS = 3
const MS_PER_DAY = 86_400_000

type Tx = EntryTx['tx']

type Mailing = {
  readonly askId: number
  readonly tryNo: number
  readonly to: string
  readonly network: AskNetwork
  readonly now: Date
}

/** Queues one mail a try with a link of its own, in the transaction that makes it due. */
export async function mailTo(
  _grant: MayAsk,
  tx: Tx,
  { askId, tryNo, to, network, now }: Mailing,
): Promise<void> {
  const { token, tokenHash } = newToken()
  await keepLink(tx, { askId, tokenHash, madeBy: null, now })
  await queueMail(tx, {
    key: `ask ${askId} try ${tryNo}`,
    to,
    subject: ASK_MAIL.subject,
    body: askMailBody({ link: addressOf(token), network: network.name, phone: network.linePhone }),
    at: now,
  })
}

/** A link for somebody to send; those made before open nothing any more. Gives the address, once. */
export async function newLinkTo(grant: Grant<'ask.put'>, tx: Tx, askId: number, now: Date): Promise<string> {
  const { token, tokenHash } = newToken()
  await revokeLinks(tx, { purpose: 'ask', askId }, now)
  await keepLink(tx, { askId, tokenHash, madeBy: grant.actor.personId, now })
  return addressOf(token)
}

async function keepLink(
  tx: Tx,
  link: {
    readonly askId: number
    readonly tokenHash: string
    readonly madeBy: number | null
    readonly now: Date
  },
): Promise<void> {
  await createLink(tx, {
    tokenHash: link.tokenHash,
    subject: { purpose: 'ask', askId: link.askId },
    madeAt: link.now,
    madeBy: link.madeBy,
    expiresAt: new Date(link.now.getTime() + LINK_DAYS * MS_PER_DAY),
  })
}

function addressOf(token: string): string {
  return new URL(`/answer/${token}`, env().NEXTAUTH_URL).href
}

/**
 * Tries to sign in: who must wait, and what a person sees of her own.
 * Promise: a try is counted as refused before its password is looked at, over the very count that was read, so that
 * many at once, in many processes, get no more tries than one after the other; and nobody waits for a lock. Keys are
 * hashes, never what was typed.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import {
  afterTry,
  secondsToWait,
  WAIT_KEPT_SECONDS,
  type Wait,
  type WaitKind,
} from '#lib/domain/sign-in-wait.ts'
import { db } from './client.ts'

export type WaitKey = { readonly kind: WaitKind; readonly key: string }

/** A try that was let begin, and how it stood before: what a right password gives back. */
export type Turn = { readonly before: readonly (WaitKey & { readonly wait: Wait | undefined })[] }

/** A turn, or the seconds to wait for one. */
export type TurnOrWait = { readonly turn: Turn } | { readonly seconds: number }

const RACES_MAX = 5

/** Begins a try, unless one of its keys has to wait; then nothing is counted. */
export async function takeTurn(
  _grant: Grant<'system.run'>,
  keys: readonly WaitKey[],
  now: Date,
): Promise<TurnOrWait> {
  // What is shared most is written first: a race that is lost there costs nobody's own tries.
  const ordered = [...keys].sort((a, b) => (a.kind < b.kind ? -1 : 1))
  for (let races = 0; races < RACES_MAX; races++) {
    const rows = await db().signInWait.findMany({
      where: { OR: ordered.map(({ kind, key }) => ({ kind, key })) },
    })
    const before = ordered.map(one => ({ ...one, wait: rows.find(row => row.kind === one.kind) }))
    const seconds = Math.max(0, ...before.map(({ wait }) => secondsToWait(wait, now)))
    if (seconds > 0) return { seconds }
    if (await countedAll(before, now)) return { turn: { before } }
  }
  return { seconds: 1 }
}

/** Counts the try at each key, over the count that was read; a key that moved meanwhile stops it. */
async function countedAll(before: Turn['before'], now: Date): Promise<boolean> {
  for (const { kind, key, wait } of before) {
    const data = afterTry(kind, wait, now)
    const { count } =
      wait === undefined
        ? await db().signInWait.createMany({ data: { kind, key, ...data }, skipDuplicates: true })
        : await db().signInWait.updateMany({
            where: { kind, key, refused: wait.refused, lastAt: wait.lastAt },
            data,
          })
    if (count === 0) return false
  }
  return true
}

/** The password was right: the account's tries from this address are forgotten, its other counts as they were. */
export async function giveTurnBack(
  _grant: Grant<'system.run' | 'account.own'>,
  { before }: Turn,
): Promise<void> {
  for (const { kind, key, wait } of before) {
    if (kind === 'pair') await db().signInWait.deleteMany({ where: { kind, key } })
    else if (wait !== undefined) await giveBack(kind, key, wait)
  }
}

async function giveBack(kind: WaitKind, key: string, wait: Wait): Promise<void> {
  await db().$executeRaw`
    update sign_in_wait set refused = greatest(0, refused - 1), free_at = ${wait.freeAt}::timestamptz
     where kind = ${kind} and key = ${key}`
}

export type SignInWay = 'password' | 'link' | 'provider' | 'demonstration'
export type SignInNote = {
  readonly personId: number
  readonly at: Date
  readonly how: SignInWay
  readonly address: string
  readonly wasLetIn: boolean
}

/** Notes that somebody was let in, or that a try in her name was refused. */
export async function noteSignIn(_grant: Grant<'system.run'>, note: SignInNote): Promise<void> {
  await db().signIn.create({ data: note })
}

/** Whether an account was let in from an address before. */
export async function isUsualAddress(
  _grant: Grant<'system.run'>,
  email: string,
  address: string,
): Promise<boolean> {
  const found = await db().signIn.findFirst({
    where: { address, wasLetIn: true, person: { email } },
    select: { id: true },
  })
  return found !== null
}

/** A person's own sign-ins and refused tries, the newest first. */
export async function listSignIns(grant: Grant<'account.own'>, limit: number): Promise<SignInNote[]> {
  const rows = await db().signIn.findMany({
    where: { personId: grant.actor.personId ?? 0 },
    select: { personId: true, at: true, how: true, address: true, wasLetIn: true },
    orderBy: [{ at: 'desc' }, { id: 'desc' }],
    take: limit,
  })
  return rows.map(({ how, ...row }) => ({ ...row, how: wayOf(how) }))
}

const WAYS: readonly SignInWay[] = ['password', 'link', 'provider', 'demonstration']

function wayOf(text: string): SignInWay {
  return WAYS.find(way => way === text) ?? 'password'
}

/** How long a sign-in is kept. */
export const SIGN_INS_KEPT_DAYS = 90
const MS_PER_DAY = 86_400_000

/** Forgets sign-ins and waits whose time is over. */
export async function forgetOldSignIns(_grant: Grant<'system.run'>, now: Date): Promise<void> {
  await db().signIn.deleteMany({
    where: { at: { lt: new Date(now.getTime() - SIGN_INS_KEPT_DAYS * MS_PER_DAY) } },
  })
  await db().signInWait.deleteMany({
    where: { lastAt: { lt: new Date(now.getTime() - WAIT_KEPT_SECONDS * 1000) } },
  })
}

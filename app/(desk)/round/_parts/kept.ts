import { type DBSchema, deleteDB, openDB } from 'idb'
import { answerOf, drain, formOf, type KeptTap, type TapAnswer, type TapStore } from './drain.ts'

interface Taps extends DBSchema {
  taps: { key: number; value: KeptTap & { no?: number }; indexes: { key: string } }
}

const NAME = 'roostwright-round'
/** Names of the service worker (lib/web/service-worker.ts). */
const PAGES = 'round-pages'
const FILES = 'round-files'
const PATIENCE_MS = 20_000

const open = () =>
  openDB<Taps>(NAME, 1, {
    upgrade(made) {
      made.createObjectStore('taps', { keyPath: 'no', autoIncrement: true }).createIndex('key', 'key', {
        unique: true,
      })
    },
  })

/** Runs something on the phone's store and closes it, so that it can be wiped at any time. */
async function within<T>(use: (db: Awaited<ReturnType<typeof open>>) => Promise<T>): Promise<T> {
  const db = await open()
  try {
    return await use(db)
  } finally {
    db.close()
  }
}

/** All that a person has kept here, the oldest first. */
export function listTaps(personId: number): Promise<KeptTap[]> {
  return within(async db => (await db.getAll('taps')).filter(tap => tap.personId === personId))
}

export function keepTap(tap: KeptTap): Promise<unknown> {
  return within(db => db.add('taps', tap))
}

export function dropTap(key: string): Promise<void> {
  return within(async db => {
    const no = await db.getKeyFromIndex('taps', 'key', key)
    if (no !== undefined) await db.delete('taps', no)
  })
}

function refuseTap(key: string, refused: string): Promise<void> {
  return within(async db => {
    const tap = await db.getFromIndex('taps', 'key', key)
    if (tap !== undefined) await db.put('taps', { ...tap, refused })
  })
}

export function storeOf(personId: number): TapStore {
  return {
    waiting: async () => (await listTaps(personId)).filter(tap => tap.refused === undefined),
    remove: dropTap,
    refuse: refuseTap,
  }
}

/** Sends one tap and says what became of it. */
export async function postTap(tap: KeptTap): Promise<TapAnswer> {
  try {
    const answer = await fetch('/api/round', {
      method: 'POST',
      body: formOf(tap, Date.now()),
      signal: AbortSignal.timeout(PATIENCE_MS),
    })
    return answerOf(answer.status, await answer.json())
  } catch {
    return { kind: 'unreachable' }
  }
}

/** One sender at a time, however many tabs are open. */
export function sendAll(
  personId: number,
  heard?: (tap: KeptTap, answer: TapAnswer) => void,
): Promise<'empty' | 'unreachable' | 'signed-out'> {
  const send = () => drain(storeOf(personId), postTap, heard)
  // Only pages of https have locks; without them two tabs may send the same, which its key makes harmless.
  return 'locks' in navigator ? navigator.locks.request('round-taps', send) : send()
}

/** Pages that a phone kept are gone; entries that wait stay for whoever made them. */
export async function wipePages(): Promise<void> {
  // A page that is being kept at this moment would come back.
  navigator.serviceWorker?.controller?.postMessage({ isWiped: true })
  if (typeof caches !== 'undefined') await caches.delete(PAGES)
}

/** Nothing of the round is left on this phone. */
export async function wipeAll(): Promise<void> {
  await wipePages()
  if (typeof caches !== 'undefined') await caches.delete(FILES)
  await deleteDB(NAME)
}

/** Before somebody signs out: what waits is sent, then nothing is left here. Without connection all of it stays. */
export async function leave(personId: number): Promise<void> {
  const left = await sendAll(personId)
  if (left === 'empty') await wipeAll()
}

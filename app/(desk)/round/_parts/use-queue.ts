'use client'

import { useRouter } from 'next/navigation'
import { type RefObject, useCallback, useEffect, useRef, useState } from 'react'
import { UNDO_SECONDS } from '#lib/domain/undo.ts'
import type { KeptTap, TapAnswer } from './drain.ts'
import { dropTap, keepTap, listTaps, sendAll } from './kept.ts'

const AGAIN_MS_MIN = 2000
const AGAIN_MS_MAX = 30_000

/** The last tap on this page, while it can be taken back. */
export type LastTap = { readonly key: string; readonly words: string; readonly id: number | undefined }

export type Queue = {
  readonly taps: readonly KeptTap[]
  readonly last: LastTap | undefined
  readonly state: 'sent' | 'unreachable' | 'signed-out'
  readonly send: (fields: Readonly<Record<string, string>>, words: string) => void
  readonly takeBack: (centreId: number) => void
  readonly putAway: (key: string) => void
}

/** The queue of one person on this phone; undefined until the phone's store is open, or where it has none. */
export function useQueue(personId: number): Queue | undefined {
  const [taps, setTaps] = useState<readonly KeptTap[]>()
  const [last, setLast] = useLast()
  const [state, setState] = useState<Queue['state']>('sent')
  const taken = useRef(new Map<string, number>())
  const unwanted = useRef(new Set<string>())
  const flush = useRef<() => void>(() => undefined)

  const look = useCallback(async () => setTaps(await listTaps(personId)), [personId])
  const add = useCallback(
    async (fields: Readonly<Record<string, string>>, words: string) => {
      const key = newKey()
      await keepTap({ key, personId, fields: { ...fields, key }, words, madeAt: Date.now() })
      await look()
      flush.current()
      return key
    },
    [personId, look],
  )

  const heard = useCallback(
    (tap: KeptTap, answer: TapAnswer) => {
      void look()
      if (answer.kind !== 'taken') return
      taken.current.set(tap.key, answer.id)
      setLast(before =>
        before?.key !== tap.key
          ? before
          : answer.canUndo
            ? { ...before, id: answer.id }
            : { ...before, words: answer.say },
      )
      if (unwanted.current.delete(tap.key))
        void add(undoOf(answer.id, tap.fields['centreId'] ?? ''), tap.words)
    },
    [look, add, setLast],
  )

  useFlushing({ personId, flush, heard, look, setState, setTaps })

  if (taps === undefined) return undefined
  return {
    taps,
    last,
    state,
    send: async (fields, words) => {
      const key = await add(fields, words)
      setLast({ key, words, id: taken.current.get(key) })
    },
    takeBack: async centreId => {
      if (last === undefined) return
      setLast(undefined)
      const id = last.id ?? taken.current.get(last.key)
      if (id !== undefined) return void add(undoOf(id, String(centreId)), last.words)
      // It may be on its way this moment: then it is taken back once its number is heard.
      unwanted.current.add(last.key)
      if (state === 'unreachable') await dropTap(last.key)
      await look()
    },
    putAway: async key => {
      await dropTap(key)
      await look()
    },
  }
}

/** The last tap, for as long as taking back is offered: from the tap on, not from its answer. */
function useLast() {
  const [last, setLast] = useState<LastTap>()
  const lastKey = last?.key
  useEffect(() => {
    if (lastKey === undefined) return
    const timer = setTimeout(() => setLast(undefined), UNDO_SECONDS * 1000)
    return () => clearTimeout(timer)
  }, [lastKey])
  return [last, setLast] as const
}

type Flushing = {
  readonly personId: number
  readonly flush: RefObject<() => void>
  readonly heard: (tap: KeptTap, answer: TapAnswer) => void
  readonly look: () => Promise<void>
  readonly setState: (state: Queue['state']) => void
  readonly setTaps: (taps: undefined) => void
}

/** Sends what waits at once, when there is signal again, when the page is looked at again, and with growing pauses. */
function useFlushing({ personId, flush, heard, look, setState, setTaps }: Flushing): void {
  const router = useRouter()
  useEffect(() => {
    let again: ReturnType<typeof setTimeout> | undefined
    let wait = AGAIN_MS_MIN
    flush.current = async () => {
      clearTimeout(again)
      const before = await listTaps(personId)
      const left = await sendAll(personId, heard)
      await look()
      setState(left === 'empty' ? 'sent' : left)
      if (left === 'empty') wait = AGAIN_MS_MIN
      if (left === 'empty' && before.some(tap => tap.refused === undefined)) router.refresh()
      if (left !== 'unreachable') return
      again = setTimeout(() => flush.current(), wait)
      wait = Math.min(wait * 2, AGAIN_MS_MAX)
    }
    const now = () => {
      if (document.visibilityState === 'visible') flush.current()
    }
    look().then(now, () => setTaps(undefined))
    window.addEventListener('online', now)
    document.addEventListener('visibilitychange', now)
    return () => {
      clearTimeout(again)
      window.removeEventListener('online', now)
      document.removeEventListener('visibilitychange', now)
    }
  }, [personId, flush, heard, look, setState, setTaps, router])
}

function undoOf(id: number, centreId: string): Readonly<Record<string, string>> {
  return { tap: `undo ${id}`, centreId }
}

/** Random bits, also where a page without https has no other source of them. */
function newKey(): string {
  return Array.from(crypto.getRandomValues(new Uint8Array(16)), byte =>
    byte.toString(16).padStart(2, '0'),
  ).join('')
}

import { useRouter } from 'next/navigation'
import { type RefObject, useCallback, useEffect, useRef, useState } from 'react'
import { DESK } from '#lib/words/desk.ts'
import { forgetUnsent, keepUnsent, restoreUnsent } from './unsent.ts'

const PAUSE_MS = 600

export type Keeping = {
  /** What is said of it beside the form. */
  readonly words: string
  readonly changed: () => void
  /** Nothing more is sent by itself: a button sends everything. */
  readonly flush: () => void
  /** An answer to a button, even a refusal, means that the sheet was kept first. */
  readonly answered: () => void
  readonly isUnsent: () => boolean
  /** Counts how often everything typed had reached the server. */
  readonly settled: number
}

type Form = RefObject<HTMLFormElement | null>

/** Sends the sheet a moment after typing stops; a dropped connection is said and tried again. */
export function useKeeping(form: Form, callId: number, onKept: (version: number) => void): Keeping {
  const router = useRouter()
  const [words, setWords] = useState('')
  const timer = useRef<ReturnType<typeof setTimeout>>(undefined)
  const edits = useRef(0)
  const sent = useRef(0)
  const [settled, setSettled] = useState(0)
  const settle = useCallback(
    (upTo: number) => {
      sent.current = upTo
      if (upTo !== edits.current) return
      forgetUnsent(callId)
      setSettled(times => times + 1)
    },
    [callId],
  )
  const send = useCallback(async () => {
    if (form.current === null) return
    const upTo = edits.current
    try {
      const answer = await fetch(`/api/calls/${callId}/sheet`, {
        method: 'POST',
        body: new FormData(form.current),
      })
      if (!answer.ok) throw new Error(String(answer.status))
      const { version } = (await answer.json()) as { readonly version: number }
      settle(upTo)
      setWords(DESK.saved)
      onKept(version)
      router.refresh()
    } catch {
      setWords(DESK.notSaved)
      timer.current = setTimeout(send, PAUSE_MS * 5)
    }
  }, [form, callId, router, onKept, settle])
  const newestSend = useRef(send)
  useEffect(() => {
    newestSend.current = send
  }, [send])
  const flush = useCallback(() => clearTimeout(timer.current), [])
  const changed = useCallback(() => {
    edits.current++
    if (form.current !== null) keepUnsent(callId, form.current)
    clearTimeout(timer.current)
    timer.current = setTimeout(() => newestSend.current(), PAUSE_MS)
  }, [callId, form])
  useEffect(() => {
    // What could not be sent before the page was loaded again comes back, and is sent.
    if (form.current !== null && restoreUnsent(callId, form.current)) {
      edits.current++
      void newestSend.current()
    }
  }, [callId, form])
  useEffect(() => flush, [flush])
  const answered = useCallback(() => settle(edits.current), [settle])
  const isUnsent = useCallback(() => edits.current !== sent.current, [])
  return { words, changed, flush, answered, isUnsent, settled }
}

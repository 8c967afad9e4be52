'use client'

import { useRouter } from 'next/navigation'
import {
  type ReactNode,
  startTransition,
  useActionState,
  useCallback,
  useEffect,
  useRef,
  useState,
} from 'react'
import { Notice } from '#app/_ui/notice.tsx'
import { type FormState, FRESH } from '#lib/web/form-state.ts'
import { DESK } from '#lib/words/desk.ts'
import { forgetUnsent, keepUnsent, restoreUnsent } from './unsent.ts'

type Props = {
  readonly callId: number
  /** The facts the page was drawn from, so that a field left alone keeps what another person wrote. */
  readonly base: string
  readonly action: (before: FormState, data: FormData) => Promise<FormState>
  /** The first answer has not been asked for: the animal is what comes first. */
  readonly startsEmpty: boolean
  readonly nextBest: string | null
  readonly children: ReactNode
}

const PAUSE_MS = 600

/** One form for sheet and options: whatever button is pressed, everything typed goes with it. */
export function CallForm({ callId, base, action, startsEmpty, nextBest, children }: Props) {
  const [state, run, isPending] = useActionState(action, FRESH)
  const form = useRef<HTMLFormElement>(null)
  const { keeping, changed, flush } = useKeeping(form, callId, base)
  useServerChoices(form, base)
  useEffect(() => {
    if (startsEmpty) field(form.current, 'animalTyped')?.focus()
  }, [startsEmpty])
  useCallKeys(form)
  const wasPending = useRef(false)
  useEffect(() => {
    // An answer, even a refusal, means that the sheet was kept first.
    if (wasPending.current && !isPending) forgetUnsent(callId)
    wasPending.current = isPending
  }, [callId, isPending])
  return (
    <form
      ref={form}
      id="call"
      action={run}
      className="call-form"
      onChange={changed}
      onSubmit={event => {
        // With React's own submission the fields would jump back to what was kept last.
        event.preventDefault()
        const data = new FormData(event.currentTarget, submitter(event.nativeEvent))
        flush()
        startTransition(() => run(data))
      }}
    >
      <input type="hidden" name="callId" value={callId} />
      <input type="hidden" name="base" value={base} />
      {/* Enter in a field presses the first button of the form: it ranks and never takes. */}
      <button type="submit" name="do" value="rank" className="vh" tabIndex={-1} aria-hidden="true">
        {DESK.title}
      </button>
      {state.message !== undefined && (
        <Notice
          kind={state.code === 'taken' ? 'just-taken' : 'check-this'}
          role="alert"
          sentence={state.message}
          kept={[state.next, state.code === 'taken' && nextBest !== null ? nextBest : '']
            .filter(Boolean)
            .join(' ')}
        />
      )}
      {children}
      <p className="keeping" role="status">
        {isPending ? DESK.saving : keeping}
      </p>
    </form>
  )
}

/** Sends the sheet a moment after typing stops; a dropped connection is said and tried again. */
function useKeeping(form: React.RefObject<HTMLFormElement | null>, callId: number, base: string) {
  const router = useRouter()
  const [keeping, setKeeping] = useState('')
  const timer = useRef<ReturnType<typeof setTimeout>>(undefined)
  const newest = useRef(base)
  useEffect(() => {
    newest.current = base
  }, [base])
  const send = useCallback(async () => {
    if (form.current === null) return
    try {
      const answer = await fetch(`/api/calls/${callId}/sheet`, {
        method: 'POST',
        body: new FormData(form.current),
      })
      if (!answer.ok) throw new Error(String(answer.status))
      forgetUnsent(callId)
      setBase(form.current, newest.current)
      setKeeping(DESK.saved)
      router.refresh()
    } catch {
      setKeeping(DESK.notSaved)
      timer.current = setTimeout(send, PAUSE_MS * 5)
    }
  }, [form, callId, router])
  const flush = useCallback(() => clearTimeout(timer.current), [])
  const changed = useCallback(() => {
    if (form.current !== null) keepUnsent(callId, form.current)
    clearTimeout(timer.current)
    timer.current = setTimeout(send, PAUSE_MS)
  }, [callId, form, send])
  useEffect(() => {
    // What could not be sent before the page was loaded again comes back, and is sent.
    if (form.current !== null && restoreUnsent(callId, form.current)) void send()
  }, [callId, form, send])
  useEffect(() => flush, [flush])
  return { keeping, changed, flush }
}

/** Boxes that the server ticked because of words show as ticked, though the browser had them clear. */
function useServerChoices(form: React.RefObject<HTMLFormElement | null>, base: string) {
  useEffect(() => {
    if (base === '') return
    for (const input of form.current?.querySelectorAll('input') ?? []) {
      const isChoice = input.type === 'checkbox' || input.type === 'radio'
      if (isChoice && input !== document.activeElement && input.checked !== input.defaultChecked) {
        input.checked = input.defaultChecked
      }
    }
  }, [form, base])
}

/** Ctrl or Cmd with Enter takes the first option, F2 goes between sheet and options, with Shift to the next call. */
function useCallKeys(form: React.RefObject<HTMLFormElement | null>) {
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      const isOnLink = event.target instanceof HTMLAnchorElement
      if (event.key === 'Enter' && (event.ctrlKey || event.metaKey) && !isOnLink) {
        const take = form.current?.querySelector<HTMLButtonElement>('button[name="take"]')
        if (take) {
          event.preventDefault()
          form.current?.requestSubmit(take)
        }
      }
      if (event.key === 'F2' && event.shiftKey) {
        // The button stands outside the form, where it is in sight from anywhere on the sheet.
        const next = document.querySelector<HTMLButtonElement>('button[name="do"][value="next"]')
        event.preventDefault()
        if (next) form.current?.requestSubmit(next)
      } else if (event.key === 'F2') {
        event.preventDefault()
        const isInOptions = document.getElementById('options')?.contains(document.activeElement) === true
        if (isInOptions) field(form.current, 'animalTyped')?.focus()
        else document.getElementById('options')?.focus()
      }
    }
    document.addEventListener('keydown', onKey)
    return () => document.removeEventListener('keydown', onKey)
  }, [form])
}

function field(form: HTMLFormElement | null, name: string): HTMLElement | undefined {
  const found = form?.elements.namedItem(name)
  return found instanceof HTMLElement ? found : undefined
}

function submitter(event: Event): HTMLElement | null {
  return event instanceof SubmitEvent ? event.submitter : null
}

/** What is typed next is typed over what the page shows now, not over what came back after a reload. */
function setBase(form: HTMLFormElement | null, base: string): void {
  const input = field(form, 'base')
  if (input instanceof HTMLInputElement) input.value = base
}

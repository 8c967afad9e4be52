'use client'

import { type ReactNode, startTransition, useActionState, useEffect, useRef, useState } from 'react'
import { Notice } from '#app/_ui/notice.tsx'
import { type FormState, FRESH } from '#lib/web/form-state.ts'
import { DESK } from '#lib/words/desk.ts'
import { useStanding } from './standing.tsx'
import { useCallKeys } from './use-call-keys.ts'
import { useKeeping } from './use-keeping.ts'
import { useSheetBase } from './use-sheet-base.ts'

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

/** One form for sheet and options: whatever button is pressed, everything typed goes with it. */
export function CallForm({ callId, base, action, startsEmpty, nextBest, children }: Props) {
  const [state, run, isPending] = useActionState(action, FRESH)
  // What was seen first; later it is put in together with the fields it belongs to.
  const [firstSeen] = useState(base)
  const form = useRef<HTMLFormElement>(null)
  const { kept, asked } = useStanding()
  const keeping = useKeeping(form, callId, kept)
  const { words, changed, flush, answered } = keeping
  const letGo = useSheetBase(form, base, keeping)
  useEffect(() => {
    const animal = form.current?.elements.namedItem('animalTyped')
    if (startsEmpty && animal instanceof HTMLElement) animal.focus()
  }, [startsEmpty])
  useCallKeys(form)
  const wasPending = useRef(false)
  useEffect(() => {
    if (wasPending.current && !isPending) answered()
    wasPending.current = isPending
  }, [answered, isPending])
  return (
    <form
      ref={form}
      id="call"
      action={run}
      className="call-form"
      onChange={changed}
      // The field that takes the focus next is known only then.
      onBlur={() => setTimeout(letGo)}
      onSubmit={event => {
        // With React's own submission the fields would jump back to what was kept last.
        event.preventDefault()
        const data = new FormData(event.currentTarget, submitter(event.nativeEvent))
        flush()
        asked()
        startTransition(() => run(data))
      }}
    >
      <input type="hidden" name="callId" value={callId} />
      <input type="hidden" name="base" defaultValue={firstSeen} />
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
        {isPending ? DESK.saving : words}
      </p>
    </form>
  )
}

function submitter(event: Event): HTMLElement | null {
  return event instanceof SubmitEvent ? event.submitter : null
}

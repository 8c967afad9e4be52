'use client'

import { useActionState, useRef } from 'react'
import { Actions, Button } from '#app/_ui/button.tsx'
import { Notice } from '#app/_ui/notice.tsx'
import { useRefusedFocus } from '#app/_ui/use-refused-focus.ts'
import { type FormState, FRESH } from '#lib/web/form-state.ts'
import type { FieldSpec } from './field-spec.ts'
import { SpecField } from './spec-field.tsx'

export type ActProps = {
  /** Names its fields on the page. */
  readonly id: string
  readonly action: (before: FormState, data: FormData) => Promise<FormState>
  /** The words of the button that opens it. */
  readonly title: string
  readonly submit: string
  readonly fields: readonly FieldSpec[]
  readonly hidden: Readonly<Record<string, string>>
  /** What to know before: cautions, what is still open. */
  readonly notes?: readonly string[]
  /** The one thing to do on this screen. */
  readonly isFirst?: boolean
  readonly isOpen?: boolean
}

/** A button that opens its form in place; open again after a refusal, with everything typed. Needs no JavaScript. */
export function Act(props: ActProps) {
  const { id, action, title, submit, fields, hidden, notes = [], isFirst = false, isOpen = false } = props
  const [state, run, isPending] = useActionState(action, FRESH)
  const form = useRef<HTMLFormElement>(null)
  useRefusedFocus(form, state)
  return (
    // Somebody may have opened it before the page came alive: that is no mistake of the drawing.
    <details className="act" id={id} open={isOpen || state.status === 'refused'} suppressHydrationWarning>
      <summary className={isFirst ? 'btn filled' : 'btn'}>{title}</summary>
      <form ref={form} action={run} className="act-form">
        {state.message !== undefined && (
          <Notice inside kind="check-this" role="alert" sentence={state.message} kept={state.next} />
        )}
        {Object.entries(hidden).map(([name, value]) => (
          <input key={name} type="hidden" name={name} value={value} />
        ))}
        {notes.map(note => (
          <p key={note} className="act-note">
            {note}
          </p>
        ))}
        {fields.map(spec => (
          <SpecField key={spec.name} spec={spec} state={state} formId={id} />
        ))}
        <Actions>
          <Button disabled={isPending}>{submit}</Button>
        </Actions>
      </form>
    </details>
  )
}

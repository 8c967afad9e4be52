'use client'

import { type ReactNode, useActionState, useRef } from 'react'
import { Notice } from '#app/_ui/notice.tsx'
import { useRefusedFocus } from '#app/_ui/use-refused-focus.ts'
import { type FormState, FRESH } from '#lib/web/form-state.ts'

type Props = {
  readonly action: (before: FormState, data: FormData) => Promise<FormState>
  readonly className?: string
  readonly children: (state: FormState, isPending: boolean) => ReactNode
}

/** A form that posts: why it was refused stands above its fields, the focus goes to the first that needs another look. */
export function ActionForm({ action, className = 'form', children }: Props) {
  const [state, run, isPending] = useActionState(action, FRESH)
  const form = useRef<HTMLFormElement>(null)
  useRefusedFocus(form, state)
  return (
    <form ref={form} action={run} className={className}>
      {state.message !== undefined && (
        <Notice inside kind="check-this" role="alert" sentence={state.message} kept={state.next} />
      )}
      {children(state, isPending)}
    </form>
  )
}

'use client'

import { useActionState } from 'react'
import { Button, type ButtonWeight } from '#app/_ui/button.tsx'
import { Notice } from '#app/_ui/notice.tsx'
import { type FormState, FRESH } from '#lib/web/form-state.ts'

type Props = {
  readonly action: (before: FormState, data: FormData) => Promise<FormState>
  readonly text: string
  readonly weight?: ButtonWeight
  readonly fields?: Readonly<Record<string, string>>
}

/** A form that is one button. */
export function OneButton({ action, text, weight = 'outlined', fields = {} }: Props) {
  const [state, run, isPending] = useActionState(action, FRESH)
  return (
    <form action={run}>
      {state.message !== undefined && (
        <Notice inside kind="check-this" role="alert" sentence={state.message} kept={state.next} />
      )}
      {Object.entries(fields).map(([name, value]) => (
        <input key={name} type="hidden" name={name} value={value} />
      ))}
      <Button weight={weight} disabled={isPending}>
        {text}
      </Button>
    </form>
  )
}

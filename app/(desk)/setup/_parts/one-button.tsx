'use client'

import { useActionState } from 'react'
import { Button } from '#app/_ui/button.tsx'
import { Notice } from '#app/_ui/notice.tsx'
import { type FormState, FRESH } from '#lib/web/form-state.ts'
import { asksFirst, Breaks } from './breaks.tsx'
import { inTheWay } from './in-the-way.tsx'

type Props = {
  readonly action: (before: FormState, data: FormData) => Promise<FormState>
  readonly text: string
  readonly fields: Readonly<Record<string, string>>
}

/** A form that is one button: switching off, lifting, taking out. What refuses it stands above it. */
export function OneButton({ action, text, fields }: Props) {
  const [state, run] = useActionState(action, FRESH)
  const newest = state.data?.['version']
  const sent = typeof newest === 'number' ? { ...fields, version: String(newest) } : fields
  return (
    <form action={run}>
      {asksFirst(state) && <Breaks state={state} inside />}
      {state.message !== undefined && !asksFirst(state) && (
        <Notice
          inside
          kind="check-this"
          role="alert"
          sentence={state.message}
          kept={inTheWay(state) ?? state.next}
        />
      )}
      {Object.entries(sent).map(([name, value]) => (
        <input key={`${name}:${value}`} type="hidden" name={name} value={value} />
      ))}
      <Button>{text}</Button>
    </form>
  )
}

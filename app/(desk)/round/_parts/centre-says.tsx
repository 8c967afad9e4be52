'use client'

import { type ReactNode, useActionState } from 'react'
import { Button } from '#app/_ui/button.tsx'
import { Notice } from '#app/_ui/notice.tsx'
import { type FormState, FRESH } from '#lib/web/form-state.ts'

type Props = {
  readonly action: (before: FormState, data: FormData) => Promise<FormState>
  readonly centreId: number
  readonly legend: string
  readonly note?: ReactNode
  /** The name under which the tapped value is sent. */
  readonly name: string
  readonly choices: readonly { readonly value: string; readonly text: string; readonly isNow: boolean }[]
}

/** A row of buttons, each of which says one thing. */
export function OneTap({ action, centreId, legend, note, name, choices }: Props) {
  const [state, run, isPending] = useActionState(action, FRESH)
  return (
    <form action={run} className="one-tap">
      {state.message !== undefined && (
        <Notice inside kind="check-this" role="alert" sentence={state.message} kept={state.next} />
      )}
      <input type="hidden" name="centreId" value={centreId} />
      <fieldset>
        <legend>{legend}</legend>
        {note !== undefined && <p className="quiet small">{note}</p>}
        <div className="taps">
          {choices.map(({ value, text, isNow }) => (
            <Button key={value} name={name} value={value} disabled={isPending} aria-pressed={isNow}>
              {text}
            </Button>
          ))}
        </div>
      </fieldset>
    </form>
  )
}

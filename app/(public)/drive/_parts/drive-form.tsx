'use client'

import { useActionState, useRef } from 'react'
import { Actions, Button } from '#app/_ui/button.tsx'
import { TextField } from '#app/_ui/field.tsx'
import { Notice } from '#app/_ui/notice.tsx'
import { useRefusedFocus } from '#app/_ui/use-refused-focus.ts'
import { typedText } from '#lib/web/form.ts'
import { type FormState, FRESH } from '#lib/web/form-state.ts'
import { DRIVE } from '#lib/words/drive-page.ts'

type Props = {
  readonly action: (before: FormState, data: FormData) => Promise<FormState>
  readonly token: string
  readonly say: 'have' | 'delivered' | 'cant'
  readonly text: string
}

/** One thing to say, one button; "I can't" with room for why. Works before any JavaScript. */
export function DriveForm({ action, token, say, text }: Props) {
  const [state, run, isPending] = useActionState(action, FRESH)
  const form = useRef<HTMLFormElement>(null)
  useRefusedFocus(form, state)
  const isCant = say === 'cant'
  return (
    <form ref={form} action={run} className="form">
      {state.message !== undefined && (
        <Notice inside kind="check-this" role="alert" sentence={state.message} kept={state.next} />
      )}
      <input type="hidden" name="token" value={token} />
      <input type="hidden" name="say" value={say} />
      {isCant && (
        <TextField
          name="reason"
          label={DRIVE.reason}
          hint={DRIVE.reasonHint}
          defaultValue={typedText(state.values, 'reason')}
          error={state.fieldErrors['reason']}
          autoComplete="off"
          maxLength={300}
        />
      )}
      <Actions>
        <Button weight={isCant ? 'outlined' : 'filled'} tall disabled={isPending}>
          {text}
        </Button>
      </Actions>
    </form>
  )
}

'use client'

import { useActionState, useRef } from 'react'
import { Actions, Button } from '#app/_ui/button.tsx'
import { TextField } from '#app/_ui/field.tsx'
import { Notice } from '#app/_ui/notice.tsx'
import { useRefusedFocus } from '#app/_ui/use-refused-focus.ts'
import { type FormState, FRESH } from '#lib/web/form-state.ts'
import { ACCOUNT } from '#lib/words/account.ts'

type Props = { readonly action: (before: FormState, data: FormData) => Promise<FormState> }

/** A new password of one's own; the one that holds now is asked for. */
export function PasswordForm({ action }: Props) {
  const [state, run] = useActionState(action, FRESH)
  const form = useRef<HTMLFormElement>(null)
  useRefusedFocus(form, state)
  return (
    <form ref={form} action={run} className="form">
      {state.message !== undefined && (
        <Notice inside kind="check-this" role="alert" sentence={state.message} kept={state.next} />
      )}
      <TextField
        name="oldPassword"
        type="password"
        required
        label={ACCOUNT.old}
        autoComplete="current-password"
        error={state.fieldErrors['oldPassword']}
      />
      <TextField
        name="newPassword"
        type="password"
        required
        label={ACCOUNT.new}
        hint={ACCOUNT.newHint}
        autoComplete="new-password"
        error={state.fieldErrors['newPassword']}
      />
      <Actions>
        <Button weight="filled">{ACCOUNT.change}</Button>
      </Actions>
    </form>
  )
}

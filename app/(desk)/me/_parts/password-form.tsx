'use client'

import { ActionForm } from '#app/_parts/action-form.tsx'
import { Actions, Button } from '#app/_ui/button.tsx'
import { TextField } from '#app/_ui/field.tsx'
import type { FormState } from '#lib/web/form-state.ts'
import { ACCOUNT } from '#lib/words/account.ts'

type Props = { readonly action: (before: FormState, data: FormData) => Promise<FormState> }

/** A new password of one's own; the one that holds now is asked for. */
export function PasswordForm({ action }: Props) {
  return (
    <ActionForm action={action}>
      {state => (
        <>
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
        </>
      )}
    </ActionForm>
  )
}

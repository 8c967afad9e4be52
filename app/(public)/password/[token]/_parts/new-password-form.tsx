'use client'

import { ActionForm } from '#app/_parts/action-form.tsx'
import { Actions, Button } from '#app/_ui/button.tsx'
import { TextField } from '#app/_ui/field.tsx'
import { PASSWORD_LINK } from '#lib/words/password-link.ts'
import { setMyPassword } from '../../actions.ts'

type Props = { readonly token: string; readonly email: string }

/** A password of one's own choice; the e-mail stands beside it so that a browser keeps both together. */
export function NewPasswordForm({ token, email }: Props) {
  return (
    <ActionForm action={setMyPassword}>
      {state => (
        <>
          <input type="hidden" name="token" value={token} />
          <TextField
            name="email"
            type="email"
            label={PASSWORD_LINK.email}
            autoComplete="username"
            value={email}
            readOnly
          />
          <TextField
            name="newPassword"
            type="password"
            required
            label={PASSWORD_LINK.new}
            hint={PASSWORD_LINK.hint}
            autoComplete="new-password"
            error={state.fieldErrors['newPassword']}
          />
          <Actions>
            <Button weight="filled">{PASSWORD_LINK.set}</Button>
          </Actions>
        </>
      )}
    </ActionForm>
  )
}

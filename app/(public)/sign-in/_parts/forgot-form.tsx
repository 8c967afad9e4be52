'use client'

import { ActionForm } from '#app/_parts/action-form.tsx'
import { Actions, Button } from '#app/_ui/button.tsx'
import { TextField } from '#app/_ui/field.tsx'
import { typedText } from '#lib/web/form.ts'
import { PASSWORD_LINK } from '#lib/words/password-link.ts'
import { SIGN_IN_WORDS } from '#lib/words/sign-in.ts'
import { askForLink } from '../actions.ts'

/** One field: the e-mail that a link goes to. */
export function ForgotForm() {
  return (
    <ActionForm action={askForLink}>
      {state => (
        <>
          <TextField
            name="email"
            type="email"
            required
            label={SIGN_IN_WORDS.email}
            autoComplete="username"
            defaultValue={typedText(state.values, 'email')}
            error={state.fieldErrors['email']}
          />
          <Actions>
            <Button weight="filled">{PASSWORD_LINK.forgotGo}</Button>
          </Actions>
        </>
      )}
    </ActionForm>
  )
}

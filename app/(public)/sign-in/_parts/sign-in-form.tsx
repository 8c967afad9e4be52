'use client'

import { ActionForm } from '#app/_parts/action-form.tsx'
import { Actions, Button, ButtonLink } from '#app/_ui/button.tsx'
import { TextField } from '#app/_ui/field.tsx'
import { typedText } from '#lib/web/form.ts'
import { paths } from '#lib/web/paths.ts'
import { PASSWORD_LINK } from '#lib/words/password-link.ts'
import { SIGN_IN_WORDS } from '#lib/words/sign-in.ts'
import { signIn } from '../actions.ts'

export function SignInForm({ returnTo }: { readonly returnTo: string }) {
  return (
    <ActionForm action={signIn}>
      {state => (
        <>
          <input type="hidden" name="to" value={returnTo} />
          <TextField
            name="email"
            type="email"
            required
            label={SIGN_IN_WORDS.email}
            autoComplete="username"
            defaultValue={typedText(state.values, 'email')}
            error={state.fieldErrors['email']}
          />
          <TextField
            name="password"
            type="password"
            required
            label={SIGN_IN_WORDS.password}
            autoComplete="current-password"
            error={state.fieldErrors['password']}
          />
          <Actions>
            <Button weight="filled">{SIGN_IN_WORDS.go}</Button>
            <ButtonLink weight="plain" href={paths.forgot()}>
              {PASSWORD_LINK.forgot}
            </ButtonLink>
          </Actions>
        </>
      )}
    </ActionForm>
  )
}

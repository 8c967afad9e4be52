'use client'

import { useActionState, useRef } from 'react'
import { Actions, Button, ButtonLink } from '#app/_ui/button.tsx'
import { TextField } from '#app/_ui/field.tsx'
import { Notice } from '#app/_ui/notice.tsx'
import { useRefusedFocus } from '#app/_ui/use-refused-focus.ts'
import { typedText } from '#lib/web/form.ts'
import { FRESH } from '#lib/web/form-state.ts'
import { paths } from '#lib/web/paths.ts'
import { PASSWORD_LINK } from '#lib/words/password-link.ts'
import { SIGN_IN_WORDS } from '#lib/words/sign-in.ts'
import { signIn } from '../actions.ts'

export function SignInForm({ returnTo }: { readonly returnTo: string }) {
  const [state, run] = useActionState(signIn, FRESH)
  const form = useRef<HTMLFormElement>(null)
  useRefusedFocus(form, state)
  return (
    <form ref={form} action={run} className="form">
      {state.message === undefined ? null : (
        <Notice inside kind="check-this" role="alert" sentence={state.message} kept={state.next} />
      )}
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
    </form>
  )
}

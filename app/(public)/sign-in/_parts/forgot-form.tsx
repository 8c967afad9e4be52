'use client'

import { useActionState, useRef } from 'react'
import { Actions, Button } from '#app/_ui/button.tsx'
import { TextField } from '#app/_ui/field.tsx'
import { Notice } from '#app/_ui/notice.tsx'
import { useRefusedFocus } from '#app/_ui/use-refused-focus.ts'
import { typedText } from '#lib/web/form.ts'
import { FRESH } from '#lib/web/form-state.ts'
import { PASSWORD_LINK } from '#lib/words/password-link.ts'
import { SIGN_IN_WORDS } from '#lib/words/sign-in.ts'
import { askForLink } from '../actions.ts'

/** One field: the e-mail that a link goes to. */
export function ForgotForm() {
  const [state, run] = useActionState(askForLink, FRESH)
  const form = useRef<HTMLFormElement>(null)
  useRefusedFocus(form, state)
  return (
    <form ref={form} action={run} className="form">
      {state.message !== undefined && (
        <Notice inside kind="check-this" role="alert" sentence={state.message} kept={state.next} />
      )}
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
    </form>
  )
}

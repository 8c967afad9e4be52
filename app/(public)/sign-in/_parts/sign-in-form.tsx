'use client'

import { useActionState, useId, useRef } from 'react'
import { useRefusedFocus } from '#app/_ui/use-refused-focus.ts'
import { typedText } from '#lib/web/form.ts'
import { type FormState, FRESH } from '#lib/web/form-state.ts'
import { SIGN_IN_WORDS } from '#lib/words/sign-in.ts'
import { signIn } from '../actions.ts'

export function SignInForm({ returnTo }: { readonly returnTo: string }) {
  const [state, run] = useActionState(signIn, FRESH)
  const form = useRef<HTMLFormElement>(null)
  useRefusedFocus(form, state)
  return (
    <form ref={form} action={run} className="form">
      <Refusal state={state} />
      <input type="hidden" name="to" value={returnTo} />
      <Field state={state} name="email" type="email" label={SIGN_IN_WORDS.email} autoComplete="username" />
      <Field
        state={state}
        name="password"
        type="password"
        label={SIGN_IN_WORDS.password}
        autoComplete="current-password"
      />
      <div className="do">
        <button type="submit" className="btn filled">
          {SIGN_IN_WORDS.go}
        </button>
      </div>
    </form>
  )
}

function Refusal({ state }: { readonly state: FormState }) {
  if (state.status === 'fresh') return null
  return (
    <div className="say grave-notice inside" role="alert">
      <p className="first">{state.message}</p>
      <p className="kept">{state.next}</p>
    </div>
  )
}

type FieldProps = {
  readonly state: FormState
  readonly name: string
  readonly type: 'email' | 'password'
  readonly label: string
  readonly autoComplete: string
}

function Field({ state, name, type, label, autoComplete }: FieldProps) {
  const id = useId()
  const error = state.fieldErrors[name]
  return (
    <div className="fld">
      <label htmlFor={id}>{label}</label>
      <input
        id={id}
        name={name}
        type={type}
        required
        autoComplete={autoComplete}
        defaultValue={typedText(state.values, name)}
        aria-invalid={error === undefined ? undefined : true}
        aria-describedby={error === undefined ? undefined : `${id}-error`}
      />
      {error === undefined ? null : (
        <p id={`${id}-error`} className="err">
          {error}
        </p>
      )}
    </div>
  )
}

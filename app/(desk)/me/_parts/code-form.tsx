'use client'

import { ActionForm } from '#app/_parts/action-form.tsx'
import { Actions, Button } from '#app/_ui/button.tsx'
import { TextField } from '#app/_ui/field.tsx'
import type { FormState } from '#lib/web/form-state.ts'
import { SHARED } from '#lib/words/shared-tablet.ts'

type Props = {
  readonly action: (before: FormState, data: FormData) => Promise<FormState>
  readonly initials: string
}

/** Initials and a short code, for tablets that several people share. */
export function CodeForm({ action, initials }: Props) {
  return (
    <ActionForm action={action}>
      {state => (
        <>
          <TextField
            name="initials"
            required
            label={SHARED.initials}
            hint={SHARED.initialsHint}
            autoComplete="off"
            defaultValue={state.values['initials']?.at(-1) ?? initials}
            error={state.fieldErrors['initials']}
          />
          <TextField
            name="shortCode"
            type="password"
            inputMode="numeric"
            required
            label={SHARED.code}
            hint={SHARED.codeHint}
            autoComplete="off"
            error={state.fieldErrors['shortCode']}
          />
          <Actions>
            <Button>{SHARED.choose}</Button>
          </Actions>
        </>
      )}
    </ActionForm>
  )
}

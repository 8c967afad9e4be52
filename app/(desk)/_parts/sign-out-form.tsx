'use client'

import { useActionState } from 'react'
import type { FormState } from '#lib/web/form-state.ts'
import { FRESH } from '#lib/web/form-state.ts'
import { SIGN_IN_WORDS } from '#lib/words/sign-in.ts'

type Props = { readonly action: (before: FormState, data: FormData) => Promise<FormState> }

/** One word that ends the session. */
export function SignOutForm({ action }: Props) {
  const [, run, isPending] = useActionState(action, FRESH)
  return (
    <form action={run} className="inline">
      <button type="submit" className="btn plain" disabled={isPending}>
        {SIGN_IN_WORDS.out}
      </button>
    </form>
  )
}

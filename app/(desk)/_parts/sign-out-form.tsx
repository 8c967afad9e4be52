'use client'

import { type FormEvent, useActionState, useRef } from 'react'
import type { FormState } from '#lib/web/form-state.ts'
import { FRESH } from '#lib/web/form-state.ts'
import { SIGN_IN_WORDS } from '#lib/words/sign-in.ts'

type Props = {
  readonly personId: number
  readonly action: (before: FormState, data: FormData) => Promise<FormState>
}

/** One word that ends the session; before it does, what waits on this phone is sent and what it kept is gone. */
export function SignOutForm({ personId, action }: Props) {
  const [, run, isPending] = useActionState(action, FRESH)
  const hasLeft = useRef(false)
  const leaves = (event: FormEvent<HTMLFormElement>) => {
    if (hasLeft.current) return
    event.preventDefault()
    const form = event.currentTarget
    import('#app/(desk)/round/_parts/kept.ts')
      .then(({ leave }) => leave(personId))
      .catch(() => undefined)
      .finally(() => {
        hasLeft.current = true
        form.requestSubmit()
      })
  }
  return (
    <form action={run} onSubmit={leaves} className="inline">
      <button type="submit" className="btn plain" disabled={isPending}>
        {SIGN_IN_WORDS.out}
      </button>
    </form>
  )
}

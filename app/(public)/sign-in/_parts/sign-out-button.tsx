'use client'

import { useActionState } from 'react'
import { FRESH } from '#lib/web/form-state.ts'
import { SIGN_IN_WORDS } from '#lib/words/sign-in.ts'
import { signOut } from '../actions.ts'

/** A form of one button, for the frame of every page. */
export function SignOutButton() {
  const [, run] = useActionState(signOut, FRESH)
  return (
    <form action={run}>
      <button type="submit" className="btn plain">
        {SIGN_IN_WORDS.out}
      </button>
    </form>
  )
}

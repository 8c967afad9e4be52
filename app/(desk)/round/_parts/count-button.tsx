'use client'

import { Button } from '#app/_ui/button.tsx'
import { ROUND } from '#lib/words/round.ts'
import { TapForm } from './tap-form.tsx'

/** "As shown": one tap counts the centre. */
export function CountButton({ fields }: { readonly fields: Readonly<Record<string, string>> }) {
  return (
    <TapForm hidden={fields}>
      {(_state, isPending) => (
        <Button name="tap" value="counted" weight="filled" disabled={isPending}>
          {ROUND.asShown}
        </Button>
      )}
    </TapForm>
  )
}

'use client'

import { Button } from '#app/_ui/button.tsx'
import { TAP } from '#lib/words/round-entry.ts'
import { cameHere } from '../actions.ts'
import { TapForm } from './tap-form.tsx'

/** Somebody expected is here: opened with one tap, recorded with the next. */
export function ArrivedForm({ hidden }: { readonly hidden: Readonly<Record<string, string>> }) {
  return (
    <details className="walk-arrived">
      <summary>{TAP.arrived}</summary>
      <TapForm hidden={hidden} action={cameHere} className="taps-of-arrival">
        {(_state, isPending) => (
          <div className="taps">
            <Button disabled={isPending}>{TAP.isHere}</Button>
            <span className="small">{TAP.isHereNote}</span>
          </div>
        )}
      </TapForm>
    </details>
  )
}

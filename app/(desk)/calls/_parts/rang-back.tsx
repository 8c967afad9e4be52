'use client'

import { useActionState } from 'react'
import { Button } from '#app/_ui/button.tsx'
import { TextField } from '#app/_ui/field.tsx'
import { Notice } from '#app/_ui/notice.tsx'
import { typedText } from '#lib/web/form.ts'
import { type FormState, FRESH } from '#lib/web/form-state.ts'
import { DESK } from '#lib/words/desk.ts'

type Props = {
  readonly action: (before: FormState, data: FormData) => Promise<FormState>
  readonly callBackId: number
}

/** Done in one tap; what was said may stand beside it. */
export function RangBack({ action, callBackId }: Props) {
  const [state, run, isPending] = useActionState(action, FRESH)
  return (
    <form action={run} className="rang-back">
      {state.message !== undefined && (
        <Notice inside kind="check-this" role="alert" sentence={state.message} kept={state.next} />
      )}
      <input type="hidden" name="callBackId" value={callBackId} />
      <TextField
        name="said"
        id={`said-${callBackId}`}
        label={DESK.said}
        maxLength={500}
        autoComplete="off"
        defaultValue={typedText(state.values, 'said', '')}
      />
      <Button disabled={isPending}>{DESK.rangBack}</Button>
    </form>
  )
}

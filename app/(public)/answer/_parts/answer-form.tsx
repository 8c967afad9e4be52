'use client'

import { useActionState, useRef } from 'react'
import { Actions, Button } from '#app/_ui/button.tsx'
import { TextField } from '#app/_ui/field.tsx'
import { Notice } from '#app/_ui/notice.tsx'
import { useRefusedFocus } from '#app/_ui/use-refused-focus.ts'
import { typedText } from '#lib/web/form.ts'
import { type FormState, FRESH } from '#lib/web/form-state.ts'
import { ASK_PAGE } from '#lib/words/ask-page.ts'

type Props = {
  readonly action: (before: FormState, data: FormData) => Promise<FormState>
  readonly token: string
  readonly isVet: boolean
}

/** Yes or no, by whom; for a vet when. Works before any JavaScript. */
export function AnswerForm({ action, token, isVet }: Props) {
  const [state, run, isPending] = useActionState(action, FRESH)
  const form = useRef<HTMLFormElement>(null)
  useRefusedFocus(form, state)
  const start = (name: string) => typedText(state.values, name)
  return (
    <form ref={form} action={run} className="form answer-form">
      {state.message !== undefined && (
        <Notice inside kind="check-this" role="alert" sentence={state.message} kept={state.next} />
      )}
      <input type="hidden" name="token" value={token} />
      <TextField
        name="by"
        label={ASK_PAGE.by}
        defaultValue={start('by')}
        error={state.fieldErrors['by']}
        autoComplete="name"
        maxLength={120}
        required
      />
      {isVet && (
        <TextField
          name="comesAt"
          type="datetime-local"
          label={ASK_PAGE.comesAt}
          hint={ASK_PAGE.comesAtHint}
          defaultValue={start('comesAt')}
          error={state.fieldErrors['comesAt']}
        />
      )}
      <TextField
        name="reason"
        label={ASK_PAGE.reason}
        hint={ASK_PAGE.reasonHint}
        defaultValue={start('reason')}
        error={state.fieldErrors['reason']}
        autoComplete="off"
        maxLength={300}
      />
      <Actions>
        <Button weight="filled" tall name="say" value="yes" disabled={isPending}>
          {isVet ? ASK_PAGE.yesVet : ASK_PAGE.yesCentre}
        </Button>
        <Button tall name="say" value="no" disabled={isPending}>
          {isVet ? ASK_PAGE.noVet : ASK_PAGE.noCentre}
        </Button>
      </Actions>
    </form>
  )
}

'use client'

import { ActionForm } from '#app/_parts/action-form.tsx'
import { Actions, Button } from '#app/_ui/button.tsx'
import { TextField } from '#app/_ui/field.tsx'
import { typedText } from '#lib/web/form.ts'
import type { FormState } from '#lib/web/form-state.ts'
import { ASK_PAGE } from '#lib/words/ask-page.ts'

type Props = {
  readonly action: (before: FormState, data: FormData) => Promise<FormState>
  readonly token: string
  readonly isVet: boolean
}

/** Yes or no, by whom; for a vet when. Works before any JavaScript. */
export function AnswerForm({ action, token, isVet }: Props) {
  return (
    <ActionForm action={action} className="form answer-form">
      {(state, isPending) => (
        <>
          <input type="hidden" name="token" value={token} />
          <TextField
            name="by"
            label={ASK_PAGE.by}
            defaultValue={typedText(state.values, 'by')}
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
              defaultValue={typedText(state.values, 'comesAt')}
              error={state.fieldErrors['comesAt']}
            />
          )}
          <TextField
            name="reason"
            label={ASK_PAGE.reason}
            hint={ASK_PAGE.reasonHint}
            defaultValue={typedText(state.values, 'reason')}
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
        </>
      )}
    </ActionForm>
  )
}

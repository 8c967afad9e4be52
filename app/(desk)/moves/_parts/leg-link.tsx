'use client'

import { useActionState } from 'react'
import { Actions, Button } from '#app/_ui/button.tsx'
import { TextAreaField, TextField } from '#app/_ui/field.tsx'
import { Notice } from '#app/_ui/notice.tsx'
import { SendIt } from '#app/_ui/send-it.tsx'
import { type FormState, FRESH } from '#lib/web/form-state.ts'
import { ROAD } from '#lib/words/road.ts'
import { SEND } from '#lib/words/send.ts'

type Props = {
  readonly action: (before: FormState, data: FormData) => Promise<FormState>
  readonly legId: number
  /** The message to send, ending where the link follows. */
  readonly text: string
  readonly driver: { readonly name: string | null; readonly phone: string | null }
}

/** A link made on demand for one driver: it is shown once and kept nowhere. */
export function LegLink({ action, legId, text, driver }: Props) {
  const [state, run, isPending] = useActionState(action, FRESH)
  const link = state.told?.['link']
  return (
    <form action={run}>
      {state.message !== undefined && (
        <Notice inside kind="check-this" role="alert" sentence={state.message} kept={state.next} />
      )}
      {link !== undefined && (
        <>
          <TextField
            key={link}
            name="link"
            id={`link-${legId}`}
            label={ROAD.linkMade}
            defaultValue={link}
            readOnly
          />
          <TextAreaField
            key={`text ${link}`}
            name="text"
            id={`text-${legId}`}
            label={ROAD.linkText}
            defaultValue={`${text} ${link}`}
            rows={5}
            readOnly
          />
          <SendIt text={`${text} ${link}`} subject={SEND.aboutLeg} email={null} {...driver} />
        </>
      )}
      <input type="hidden" name="legId" value={legId} />
      <Actions>
        <Button disabled={isPending}>{ROAD.makeLink}</Button>
      </Actions>
    </form>
  )
}

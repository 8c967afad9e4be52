'use client'

import { useActionState } from 'react'
import { Actions, Button } from '#app/_ui/button.tsx'
import { TextAreaField, TextField } from '#app/_ui/field.tsx'
import { Notice } from '#app/_ui/notice.tsx'
import { SendIt } from '#app/_ui/send-it.tsx'
import { type FormState, FRESH } from '#lib/web/form-state.ts'
import { ASK } from '#lib/words/ask.ts'
import { SEND } from '#lib/words/send.ts'

type Props = {
  readonly action: (before: FormState, data: FormData) => Promise<FormState>
  readonly askId: number
  /** The text without a link, until one is made. */
  readonly text: string
  /** Who is asked now. */
  readonly to: { readonly name: string | null; readonly phone: string | null; readonly email: string | null }
}

/** The text to send, and a link made for it on demand: it is shown once and kept nowhere. */
export function MakeLink({ action, askId, text, to }: Props) {
  const [state, run, isPending] = useActionState(action, FRESH)
  const link = state.told?.['link']
  const words = state.told?.['text'] ?? text
  return (
    <form action={run} className="ask-send">
      {state.message !== undefined && (
        <Notice inside kind="check-this" role="alert" sentence={state.message} kept={state.next} />
      )}
      {link !== undefined && (
        <TextField key={link} name="link" label={ASK.linkMade} defaultValue={link} readOnly />
      )}
      <TextAreaField
        key={words}
        name="text"
        label={ASK.toSend}
        defaultValue={words}
        rows={Math.min(24, words.split('\n').length + 2)}
        readOnly
      />
      {link !== undefined && <SendIt key={`send ${link}`} text={words} subject={SEND.aboutAsk} {...to} />}
      <input type="hidden" name="askId" value={askId} />
      <Actions>
        <Button disabled={isPending}>{ASK.makeLink}</Button>
      </Actions>
      <p className="quiet small">{ASK.linkNote}</p>
    </form>
  )
}

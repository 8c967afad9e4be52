'use client'

import { useActionState } from 'react'
import { Actions, Button } from '#app/_ui/button.tsx'
import { TextField } from '#app/_ui/field.tsx'
import { Notice } from '#app/_ui/notice.tsx'
import { Section } from '#app/_ui/section.tsx'
import { type FormState, FRESH } from '#lib/web/form-state.ts'
import { madeWords, mailedWords, WAY_IN } from '#lib/words/password-link.ts'

type Props = {
  readonly action: (before: FormState, data: FormData) => Promise<FormState>
  readonly id: number
  readonly way: { readonly hasPassword: boolean; readonly isMailed: boolean }
}

/** Inviting somebody, or letting her set a new password: the link goes by mail or is shown this once. */
export function WayInSection({ action, id, way }: Props) {
  const [state, run] = useActionState(action, FRESH)
  return (
    <Section
      id="way-in"
      head={WAY_IN.head}
      note={`${way.hasPassword ? WAY_IN.has : WAY_IN.hasNone} ${way.isMailed ? WAY_IN.mails : WAY_IN.shows}`}
    >
      <form action={run} className="form">
        {state.status === 'refused' && (
          <Notice inside kind="check-this" role="alert" sentence={state.message ?? ''} kept={state.next} />
        )}
        {state.told !== undefined && <Made told={state.told} />}
        <input type="hidden" name="id" value={id} />
        <Actions>
          <Button>{way.hasPassword ? WAY_IN.reset : WAY_IN.invite}</Button>
        </Actions>
      </form>
    </Section>
  )
}

function Made({ told }: { readonly told: Readonly<Record<string, string>> }) {
  const { mailedTo, url = '', until = '' } = told
  if (mailedTo !== undefined) {
    return <Notice inside kind="done" role="status" sentence={mailedWords(mailedTo)} />
  }
  return (
    <>
      <Notice inside kind="done" role="status" sentence={madeWords(until)} kept={WAY_IN.once} />
      <TextField name="link" label={WAY_IN.link} value={url} readOnly />
    </>
  )
}

'use client'

import { useActionState, useRef } from 'react'
import { Actions, Button } from '#app/_ui/button.tsx'
import { Notice } from '#app/_ui/notice.tsx'
import { Section } from '#app/_ui/section.tsx'
import { useRefusedFocus } from '#app/_ui/use-refused-focus.ts'
import { type FormState, FRESH } from '#lib/web/form-state.ts'
import { SETUP_PAGE } from '#lib/words/setup-page.ts'
import { asksFirst, Breaks } from './breaks.tsx'
import { FieldView } from './field-view.tsx'
import type { Part } from './spec.ts'

export type SetupFormProps = {
  readonly action: (before: FormState, data: FormData) => Promise<FormState>
  readonly parts: readonly Part[]
  readonly submit: string
  /** Sent along unseen: which row, over which version. */
  readonly hidden?: Readonly<Record<string, string>>
  /** Where to see what somebody else wrote meanwhile. */
  readonly here?: string
  /** The page has another form whose button is the filled one. */
  readonly isSecond?: boolean
}

/** A form of setup: one section a part, one button at its foot. Works before any JavaScript. */
export function SetupForm(props: SetupFormProps) {
  const { action, parts, submit, hidden = {}, here, isSecond = false } = props
  const [state, run] = useActionState(action, FRESH)
  const form = useRef<HTMLFormElement>(null)
  useRefusedFocus(form, state)
  const newest = state.data?.['version']
  const sent = typeof newest === 'number' ? { ...hidden, version: String(newest) } : hidden
  return (
    <form ref={form} action={run} className="setup-form">
      <Refused state={state} here={here} />
      {Object.entries(sent).map(([name, value]) => (
        <input key={`${name}:${value}`} type="hidden" name={name} value={value} />
      ))}
      {parts.map((part, at) => (
        <Section
          key={part.id}
          id={part.id}
          head={part.head}
          {...(part.note !== undefined && { note: part.note })}
          strong={at === 0 && !isSecond}
        >
          <div className="form">
            {part.fields.map(spec => (
              <FieldView key={spec.name} spec={spec} state={state} />
            ))}
          </div>
        </Section>
      ))}
      <div className="setup-do">
        <Actions>
          <Button weight={isSecond ? 'outlined' : 'filled'}>{submit}</Button>
        </Actions>
      </div>
    </form>
  )
}

function Refused({ state, here }: { readonly state: FormState; readonly here: string | undefined }) {
  if (state.message === undefined) return null
  if (asksFirst(state)) return <Breaks state={state} />
  const isChanged = state.code === 'conflict'
  return (
    <Notice
      kind={isChanged ? 'changed-since' : 'check-this'}
      role="alert"
      sentence={state.message}
      kept={state.next}
      todo={
        isChanged && here !== undefined ? (
          <a className="btn plain" href={here} target="_blank" rel="noreferrer">
            {SETUP_PAGE.seeNow}
          </a>
        ) : undefined
      }
    />
  )
}

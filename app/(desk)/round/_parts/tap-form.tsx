'use client'

import {
  createContext,
  type FormEvent,
  type ReactNode,
  useActionState,
  useContext,
  useId,
  useRef,
  useState,
} from 'react'
import { Notice } from '#app/_ui/notice.tsx'
import { useRefusedFocus } from '#app/_ui/use-refused-focus.ts'
import { type FormState, FRESH } from '#lib/web/form-state.ts'
import { OFFLINE } from '#lib/words/offline.ts'
import { SHARED } from '#lib/words/shared-tablet.ts'
import { tapped } from '../actions.ts'
import { useTaps } from './round-queue.tsx'

const AsksWho = createContext(false)

/** A tablet that several people share: no queue, and every tap asks who makes it. */
export function SharedTablet({ children }: { readonly children: ReactNode }) {
  return <AsksWho value={true}>{children}</AsksWho>
}

type Props = {
  readonly className?: string
  /** Sent along unseen: where, who, and what the page showed. */
  readonly hidden: Readonly<Record<string, string>>
  /** Whom it is about, for the words of what was tapped. */
  readonly about?: string
  /** What it posts to, where that is not a tap: it goes through no queue, so it needs signal. */
  readonly action?: (before: FormState, data: FormData) => Promise<FormState>
  /** After a tap went into the queue. */
  readonly onSent?: () => void
  readonly children: (state: FormState, isPending: boolean) => ReactNode
}

/** A form whose buttons are taps: into the phone's queue where it has one, else posted. */
export function TapForm({ className, hidden, about, action, onSent, children }: Props) {
  const [state, run, isPending] = useActionState(action ?? tapped, FRESH)
  const [isCut, setCut] = useState(false)
  const queue = useTaps()
  const asksWho = useContext(AsksWho)
  const form = useRef<HTMLFormElement>(null)
  useRefusedFocus(form, state)
  const submitted = (event: FormEvent<HTMLFormElement>) => {
    if (action !== undefined) {
      const isLost = !navigator.onLine || queue?.state === 'unreachable'
      setCut(isLost)
      if (isLost) event.preventDefault()
      return
    }
    if (queue === undefined) return
    event.preventDefault()
    const { submitter } = event.nativeEvent as SubmitEvent
    const fields = fieldsOf(event.currentTarget, submitter)
    if (isLacking(event.currentTarget, fields)) return
    queue.send(fields, wordsOf(about, fields, submitter))
    event.currentTarget.reset()
    onSent?.()
  }
  return (
    <form ref={form} action={run} onSubmit={submitted} className={className}>
      {state.message !== undefined && <Refused state={state} />}
      {isCut && (
        <Notice
          inside
          kind="check-this"
          role="alert"
          sentence={OFFLINE.needsSignal}
          kept={OFFLINE.needsSignalNext}
        />
      )}
      {Object.entries(hidden).map(([name, value]) => (
        <input key={name} type="hidden" name={name} value={value} />
      ))}
      {asksWho && <Who state={state} />}
      {children(state, isPending)}
    </form>
  )
}

/** On a shared tablet: each entry says who makes it. */
function Who({ state }: { readonly state: FormState }) {
  const id = useId()
  return (
    <fieldset className="who-taps">
      <legend>{SHARED.who}</legend>
      <div className="taps">
        <label htmlFor={`${id}-initials`}>{SHARED.initials}</label>
        <input
          id={`${id}-initials`}
          name="initials"
          required
          autoComplete="off"
          autoCapitalize="characters"
          maxLength={4}
          defaultValue={state.values['initials']?.at(-1) ?? ''}
        />
        <label htmlFor={`${id}-code`}>{SHARED.code}</label>
        <input
          id={`${id}-code`}
          name="shortCode"
          type="password"
          inputMode="numeric"
          required
          autoComplete="off"
          maxLength={8}
        />
      </div>
    </fieldset>
  )
}

function fieldsOf(form: HTMLFormElement, submitter: HTMLElement | null): Record<string, string> {
  const data = [...new FormData(form, submitter)]
  return Object.fromEntries(
    data.flatMap(([name, value]) =>
      typeof value === 'string' && !name.startsWith('$') ? [[name, value]] : [],
    ),
  )
}

/** What the button needs beside itself; the browser says so at the field, with and without signal. */
function isLacking(
  form: HTMLFormElement,
  { tap, grams = '', enclosureId = '' }: Record<string, string>,
): boolean {
  const isNumber = /^\s*\d{1,6}([.,]\d+)?\s*$/.test(grams)
  const lack =
    tap === 'weight' && !isNumber
      ? { name: 'grams', say: OFFLINE.needsNumber }
      : tap === 'moved' && enclosureId === ''
        ? { name: 'enclosureId', say: OFFLINE.needsPlace }
        : undefined
  const field = lack === undefined ? null : form.elements.namedItem(lack.name)
  if (!(field instanceof HTMLInputElement || field instanceof HTMLSelectElement)) return false
  field.setCustomValidity(lack?.say ?? '')
  field.reportValidity()
  field.addEventListener('input', () => field.setCustomValidity(''), { once: true })
  return true
}

function wordsOf(
  about: string | undefined,
  { tap = '', grams = '' }: Record<string, string>,
  submitter: HTMLElement | null,
): string {
  const button = submitter?.textContent?.trim() ?? ''
  const legend = submitter?.closest('fieldset')?.querySelector('legend')?.textContent ?? ''
  const words =
    tap === 'weight' ? `${legend} ${grams} g` : tap.startsWith('check ') ? `${legend}: ${button}` : button
  return about === undefined ? words : `${about}: ${words}`
}

function Refused({ state }: { readonly state: FormState }) {
  const fields = Object.values(state.fieldErrors).join('. ')
  return (
    <Notice
      inside
      kind="check-this"
      role="alert"
      sentence={state.message ?? ''}
      kept={fields === '' ? state.next : `${fields}. ${state.next ?? ''}`}
    />
  )
}

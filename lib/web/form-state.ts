/**
 * What a form shows after it was sent: nothing yet, or a refusal with everything typed.
 * Plain data, safe in the browser; `useActionState(action, FRESH)` starts with it.
 */
import type { FailureCode } from '#lib/kernel/failure.ts'
import type { FormValues } from './form.ts'

export type FormState = {
  readonly status: 'fresh' | 'refused' | 'told'
  /** What the action made that is shown once and kept nowhere, such as a link. */
  readonly told?: Readonly<Record<string, string>>
  /** The kind of refusal. */
  readonly code?: FailureCode
  /** The rule that refused: a constraint's or a domain rule's name. */
  readonly rule?: string
  /** What happened, as a sentence. */
  readonly message?: string
  /** What the person can do, as a sentence. */
  readonly next?: string
  /** One sentence a field, by the field's name in the form. */
  readonly fieldErrors: Readonly<Record<string, string>>
  /** The field to focus. */
  readonly focus?: string
  /** Everything typed, by field name (lib/web/form.ts reads it back). */
  readonly values: FormValues
  /** What else the refusal carries, such as who took the place. */
  readonly data?: Readonly<Record<string, unknown>>
}

export const FRESH: FormState = { status: 'fresh', fieldErrors: {}, values: {} }

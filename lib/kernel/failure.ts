/**
 * What can be refused, and with which HTTP status.
 * Promise: an expected refusal is always a `Failure` with a code from this table; its sentence is in lib/words.
 * Refuses nothing itself; carries no text for people, only what the sentence needs.
 */

export const FAILURES = {
  invalid: { status: 422 },
  'signed-out': { status: 401 },
  forbidden: { status: 403 },
  'not-found': { status: 404 },
  conflict: { status: 409 },
  taken: { status: 409 },
  rule: { status: 409 },
  fault: { status: 503 },
} as const satisfies Record<string, { readonly status: number }>

export type FailureCode = keyof typeof FAILURES

/** One complaint about one field: which, why, and the limit it missed. */
export type Problem = {
  readonly field: string
  readonly reason: string
  readonly limit?: string | number
}

/** What a refusal carries beside its code. `rule` is the name of a constraint or of a rule of lib/domain. */
export type FailureDetail = {
  readonly field?: string
  readonly rule?: string
  readonly problems?: readonly Problem[]
  readonly data?: Readonly<Record<string, unknown>>
  readonly cause?: unknown
}

/** An expected refusal. Match on `code`, never on the class or the text. */
export class Failure extends Error {
  readonly code: FailureCode
  readonly field: string | undefined
  readonly rule: string | undefined
  readonly problems: readonly Problem[]
  readonly data: Readonly<Record<string, unknown>>

  constructor(code: FailureCode, detail: FailureDetail = {}) {
    super(detail.rule === undefined ? code : `${code}: ${detail.rule}`, { cause: detail.cause })
    this.name = 'Failure'
    this.code = code
    this.field = detail.field
    this.rule = detail.rule
    this.problems = detail.problems ?? []
    this.data = detail.data ?? {}
  }

  get status(): number {
    return FAILURES[this.code].status
  }
}

/** Whether something caught is one of our refusals (also one made by another copy of this module). */
export function isFailure(thrown: unknown): thrown is Failure {
  return (
    thrown instanceof Error &&
    thrown.name === 'Failure' &&
    'code' in thrown &&
    typeof thrown.code === 'string' &&
    Object.hasOwn(FAILURES, thrown.code)
  )
}

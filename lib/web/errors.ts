/**
 * The one place where something thrown becomes words.
 * Promise: only a Failure's own sentence reaches a browser; anything else is logged with a number a person can quote
 * and shown as our mistake or as "try again". Never logs what somebody typed.
 */
import 'server-only'
import { type Failure, isFailure } from '#lib/kernel/failure.ts'
import { logFault } from '#lib/service/log.ts'
import { failureWords, faultWords, problemWords } from '#lib/words/failure.ts'
import type { FormValues } from './form.ts'
import type { FormState } from './form-state.ts'

/** The state of a form that was refused: words, fields, and everything typed. */
export function refusedState(thrown: unknown, values: FormValues, fieldNames: readonly string[]): FormState {
  if (!isFailure(thrown)) {
    return {
      status: 'refused',
      code: 'fault',
      fieldErrors: {},
      values,
      ...saidOf(faultWords(logFault(thrown))),
    }
  }
  const fieldErrors = fieldErrorsOf(thrown, fieldNames)
  const focus = fieldNames.find(name => Object.hasOwn(fieldErrors, name)) ?? Object.keys(fieldErrors)[0]
  return {
    status: 'refused',
    code: thrown.code,
    ...saidOf(failureWords(thrown)),
    fieldErrors,
    values,
    ...(thrown.rule !== undefined && { rule: thrown.rule }),
    ...(focus !== undefined && { focus }),
    ...(Object.keys(thrown.data).length > 0 && { data: thrown.data }),
  }
}

/** A refusal as problem details (RFC 9457), with our code. */
export function problemDetails(thrown: unknown): { readonly status: number; readonly body: object } {
  if (!isFailure(thrown)) {
    const { say, next } = faultWords(logFault(thrown))
    return { status: 500, body: { title: say, status: 500, detail: next, code: 'fault' } }
  }
  const { say, next } = failureWords(thrown)
  const errors = thrown.problems.map(problem => ({ field: problem.field, say: problemWords(problem) }))
  return {
    status: thrown.status,
    body: {
      title: say,
      status: thrown.status,
      detail: next,
      code: thrown.code,
      ...(thrown.rule !== undefined && { rule: thrown.rule }),
      ...(errors.length > 0 && { errors }),
    },
  }
}

function saidOf({ say, next }: { readonly say: string; readonly next: string }) {
  return { message: say, next }
}

function fieldErrorsOf(failure: Failure, fieldNames: readonly string[]): Record<string, string> {
  const errors: Record<string, string> = {}
  for (const problem of failure.problems) {
    const name = nameInForm(problem.field, fieldNames)
    if (name !== '' && !Object.hasOwn(errors, name)) errors[name] = problemWords(problem)
  }
  if (failure.problems.length === 0 && failure.field !== undefined) {
    errors[nameInForm(failure.field, fieldNames)] = failureWords(failure).say
  }
  return errors
}

/** A complaint about `conditions.0` belongs to the field `conditions[]` where the form spells it so. */
function nameInForm(field: string, fieldNames: readonly string[]): string {
  const several = `${field.replace(/\.\d+$/, '')}[]`
  return !fieldNames.includes(field) && fieldNames.includes(several) ? several : field
}

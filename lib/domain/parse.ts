/**
 * Typed values out of what a person, a file or a caller sent.
 * Promise: a value that fits the schema, or one Failure('invalid') that names every field that does not, with the
 * reason as a word that lib/words turns into a sentence. A rule between fields names itself as `params.rule`.
 */
import type { z } from 'zod'
import { Failure, type Problem } from '#lib/kernel/failure.ts'

export type Schema<T> = z.ZodType<T>
type Issue = z.core.$ZodIssue

/** The value as the schema reads it; throws Failure('invalid') with one problem a field. */
export function parse<T>(schema: Schema<T>, input: unknown): T {
  const read = schema.safeParse(input, { reportInput: true })
  if (read.success) return read.data
  const seen = new Set<string>()
  const problems = read.error.issues.flatMap(problemsOf).filter(({ field }) => {
    const isFirst = !seen.has(field)
    seen.add(field)
    return isFirst
  })
  const first = problems.find(problem => problem.field !== '')
  throw new Failure('invalid', { problems, ...(first && { field: first.field }) })
}

function problemsOf(issue: Issue): Problem[] {
  const field = issue.path.map(String).join('.')
  const inside = (key: string) => (field === '' ? key : `${field}.${key}`)
  switch (issue.code) {
    case 'too_small':
      return [tooSmall(field, issue)]
    case 'too_big':
      return [{ field, reason: tooBig(issue), limit: Number(issue.maximum) }]
    case 'invalid_type':
      return [{ field, reason: issue.input === undefined ? 'missing' : `not-${issue.expected}` }]
    case 'invalid_format':
      return [{ field, reason: `not-${issue.format}` }]
    case 'invalid_value':
      return [{ field, reason: 'not-listed' }]
    case 'unrecognized_keys':
      return issue.keys.map(key => ({ field: inside(key), reason: 'unknown' }))
    case 'custom':
      return [
        { field, reason: typeof issue.params?.['rule'] === 'string' ? issue.params['rule'] : 'refused' },
      ]
    default:
      return [{ field, reason: 'refused' }]
  }
}

function tooSmall(field: string, issue: Extract<Issue, { code: 'too_small' }>): Problem {
  const limit = Number(issue.minimum)
  const counted = issue.origin === 'string' || issue.origin === 'array'
  if (counted && limit <= 1) return { field, reason: 'missing' }
  if (counted) return { field, reason: 'too-short', limit }
  return { field, reason: issue.inclusive === false ? 'not-above' : 'too-small', limit }
}

function tooBig(issue: Extract<Issue, { code: 'too_big' }>): string {
  if (issue.origin === 'string') return 'too-long'
  return issue.inclusive === false ? 'not-below' : 'too-big'
}

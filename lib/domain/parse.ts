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

/** How the inputs of this moment are read: by which clock, and what now is. */
export type Moment = { readonly zone: string; readonly now: Date }
type Timed<T> = (at: Moment) => Schema<T>
type Built = { readonly schema: Schema<unknown>; readonly at: { zone: string; now: Date } }

const built = new WeakMap<Timed<unknown>, Map<string, Built>>()

/**
 * Like parse, by a schema that reads times; throws the same.
 * Building such a schema takes longer than reading by it, so it is built once a zone and told what now is at each
 * reading, which nothing can interrupt. The schema must ask its moment for now while it reads, not while it is built.
 */
export function parseAt<T>(timed: Timed<T>, { zone, now }: Moment, input: unknown): T {
  const ofZones = built.get(timed) ?? new Map<string, Built>()
  built.set(timed, ofZones)
  const known = ofZones.get(zone)
  const at = known?.at ?? { zone, now }
  at.now = now
  const schema = (known?.schema as Schema<T> | undefined) ?? timed(at)
  if (known === undefined) ofZones.set(zone, { schema, at })
  return parse(schema, input)
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

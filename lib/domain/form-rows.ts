/**
 * Lists as a form sends them: always a few empty lines more than are wanted.
 * Promise: an empty line counts for nothing; a complaint names the line as it stands in the form, empty ones counted.
 * Shares are typed in per cent and read as shares.
 */
import { z } from 'zod'
import { decimalText } from './text.ts'

const PERCENT_DIGITS = 6

type Rows = readonly Readonly<Record<string, string>>[]
type RowIssue = z.core.$ZodIssue
type Sink = z.core.ParsePayload<unknown>

/** The lines that say something, each read by its schema. */
export function filledRows<T>(row: z.ZodType<T>) {
  return z
    .array(z.record(z.string(), z.string()))
    .default([])
    .transform((rows: Rows, context) =>
      rows.flatMap((typed, at) =>
        Object.values(typed).every(isBlank) ? [] : read(row, typed, at, context as Sink),
      ),
    )
}

/** The named boxes that were filled in: `offers.falcons = 2` becomes ['falcons', 2]. */
export function filledEntries<T>(value: z.ZodType<T>) {
  return z
    .record(z.string(), z.string())
    .default({})
    .transform((boxes, context) =>
      Object.entries(boxes).flatMap(([key, typed]) =>
        isBlank(typed)
          ? []
          : read(value, typed, key, context as Sink).map(done => [key, done] as readonly [string, T]),
      ),
    )
}

/** A numbered list of boxes: an empty one is none of it, and what is empty at the end is left off. */
export function numberedBoxes(value: z.ZodType<number>) {
  return z
    .array(z.string())
    .default([])
    .transform((boxes, context) => {
      const last = boxes.findLastIndex(typed => !isBlank(typed))
      return boxes
        .slice(0, last + 1)
        .flatMap((typed, at) => (isBlank(typed) ? [0] : read(value, typed, at, context as Sink)))
    })
}

/** A share typed in per cent: "7.5" is 0.075; less than 0 and more than 100 are none. */
export const percentText = z.codec(z.string(), z.number(), {
  decode: (typed, context) => {
    const number = decimalText.safeParse(typed, { reportInput: true })
    if (number.success && number.data >= 0 && number.data <= 100) return number.data / 100
    if (number.success) {
      context.issues.push({ code: 'custom', input: typed, params: { rule: 'not-percent' } })
      return z.NEVER
    }
    for (const issue of number.error.issues) context.issues.push(passedOn(issue, []))
    return z.NEVER
  },
  encode: share => String(Number((share * 100).toFixed(PERCENT_DIGITS))),
})

function read<T>(schema: z.ZodType<T>, typed: unknown, at: string | number, context: Sink): T[] {
  const done = schema.safeParse(typed, { reportInput: true })
  if (done.success) return [done.data]
  for (const issue of done.error.issues) context.issues.push(passedOn(issue, [at]))
  return []
}

function passedOn(issue: RowIssue, before: readonly (string | number)[]): z.core.$ZodRawIssue {
  return { ...issue, input: issue.input, path: [...before, ...issue.path] } as z.core.$ZodRawIssue
}

function isBlank(typed: string): boolean {
  return typed.trim() === ''
}

/** What a form of setup asks, as plain data: the same lines are a form for whoever may change them, facts for others. */
import type { z } from 'zod'

export type Option = { readonly value: string; readonly text: string; readonly group?: string }
export type Cell = {
  readonly key: string
  readonly label: string
  readonly options?: readonly Option[]
  readonly inputMode?: 'numeric' | 'decimal'
}
type Said = { readonly label: string; readonly hint?: string; readonly unit?: string }

export type FieldSpec = { readonly name: string } & Said &
  (
    | {
        readonly kind: 'text'
        readonly start: string
        readonly type?: 'text' | 'email' | 'password' | 'tel' | 'datetime-local' | 'date'
        readonly inputMode?: 'numeric' | 'decimal'
        readonly autoComplete?: string
      }
    | { readonly kind: 'area'; readonly start: string }
    | { readonly kind: 'tick'; readonly start: boolean }
    | {
        readonly kind: 'select'
        readonly start: string
        readonly options: readonly Option[]
        readonly none?: string
      }
    | {
        readonly kind: 'choices'
        readonly many: boolean
        readonly start: readonly string[]
        readonly choices: readonly { readonly value: string; readonly label: string; readonly sub?: string }[]
        readonly columns?: 1 | 2 | 3
      }
    | {
        readonly kind: 'boxes'
        readonly boxes: readonly { readonly name: string; readonly label: string; readonly start: string }[]
        /** The words of the fold that holds the boxes that start empty; without it all stand open. */
        readonly fold?: string
      }
    | {
        readonly kind: 'rows'
        readonly cells: readonly Cell[]
        readonly start: readonly Readonly<Record<string, string>>[]
        readonly empty: number
      }
  )

export type Part = {
  readonly id: string
  readonly head: string
  readonly note?: string
  readonly fields: readonly FieldSpec[]
}

/** Title, hint and unit of a field, from the one schema that has them. */
export function said(schema: z.ZodType): Said {
  const meta = schema.meta() ?? {}
  return {
    label: textIn(meta, 'title') ?? '',
    ...(textIn(meta, 'hint') !== undefined && { hint: textIn(meta, 'hint') ?? '' }),
    ...(textIn(meta, 'unit') !== undefined && { unit: textIn(meta, 'unit') ?? '' }),
  }
}

/** A line of text. */
export function text(name: string, schema: z.ZodType, start: string | null | undefined): FieldSpec {
  return { kind: 'text', name, ...said(schema), start: start ?? '' }
}

/** A number, written with a point; nothing where there is none. */
export function number(name: string, schema: z.ZodType, start: number | null | undefined): FieldSpec {
  return {
    kind: 'text',
    name,
    ...said(schema),
    inputMode: 'decimal',
    start: start === null || start === undefined ? '' : String(start),
  }
}

export function select(
  name: string,
  schema: z.ZodType,
  start: string | number | null | undefined,
  options: readonly Option[],
  none?: string,
): FieldSpec {
  return {
    kind: 'select',
    name,
    ...said(schema),
    start: start === null || start === undefined ? '' : String(start),
    options,
    ...(none !== undefined && { none }),
  }
}

function textIn(meta: Readonly<Record<string, unknown>>, key: string): string | undefined {
  const value = meta[key]
  return typeof value === 'string' ? value : undefined
}

export function phone(name: string, schema: z.ZodType, start: string | null | undefined): FieldSpec {
  return { kind: 'text', name, ...said(schema), type: 'tel', start: start ?? '' }
}

/** An instant as a browser's own field wants it: "2026-11-26T08:00". */
export function instant(name: string, schema: z.ZodType, start: string): FieldSpec {
  return { kind: 'text', name, ...said(schema), type: 'datetime-local', start }
}

/** A civil date in a browser's own field. */
export function date(name: string, schema: z.ZodType, start: string | null | undefined): FieldSpec {
  return { kind: 'text', name, ...said(schema), type: 'date', start: start ?? '' }
}

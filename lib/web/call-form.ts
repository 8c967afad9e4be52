/**
 * The call sheet between the browser and the service: what was typed, and what the typist saw when she began.
 */
import { z } from 'zod'
import type { SheetInput } from '#lib/domain/call-sheet.ts'
import { parse } from '#lib/domain/parse.ts'
import { type FormInput, readForm } from './form.ts'

const callNumber = z.coerce.number().int().positive()

export type SheetPosted = { readonly callId: number; readonly base: unknown; readonly input: SheetInput }

/** A sheet sent as a form; the call's number from the address or the form. */
export function sheetPosted(data: FormData, id: string | undefined): SheetPosted {
  const form = readForm(data)
  return sheetOf(form, id)
}

/** The same from a form that was read already. */
export function sheetOf(form: FormInput, id: unknown = form['callId']): SheetPosted {
  return { callId: parse(callNumber, id), base: seenBy(form['base']), input: form }
}

function seenBy(base: unknown): unknown {
  if (typeof base !== 'string') return undefined
  try {
    return JSON.parse(base)
  } catch {
    return undefined
  }
}

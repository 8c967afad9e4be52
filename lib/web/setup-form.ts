/**
 * What every action of setup reads from its form and where it goes afterwards.
 */
import type { Route } from 'next'
import { parse } from '#lib/domain/parse.ts'
import { idInput } from '#lib/domain/record.ts'
import type { FormInput } from './form.ts'
import { paths, type SetupNoun } from './paths.ts'

/** The number of the row a form is about. */
export function idIn(form: FormInput, name = 'id'): number {
  return parse(idInput, form[name])
}

/** The text of a field; '' where it was not sent. */
export function textIn(form: FormInput, name: string): string {
  const value = form[name]
  return typeof value === 'string' ? value : ''
}

/** The page of a row, with the word of what was done. */
export function keptAt(noun: SetupNoun, id: string | number, kept: string): Route {
  return paths.setupItem(noun, id, { kept })
}

/** Which of the two words a switch was pressed with. */
export function switchedTo(form: FormInput): 'on' | 'off' {
  return form['isActive'] === 'on' ? 'on' : 'off'
}

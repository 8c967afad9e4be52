/** The doors of rows that setup adds, changes and switches. Answers in the order of rows.ts. */
import type { ActionRow } from './rows.ts'

export const HOUSING = '403 403 403 403 403 yes'

/** Adding, changing and switching one kind of row: an administrator's. */
export function housing(
  folder: string,
  noun: string,
  id: string,
  answers = HOUSING,
): Readonly<Record<string, readonly ActionRow[]>> {
  const row = { at: `/setup/${folder}/${id}`, answers }
  return {
    ...addsAndChanges(folder, noun, id, answers),
    [`(desk)/setup/${folder} switch${noun}Action`]: [{ ...row, form: { id } }],
  }
}

export function addsAndChanges(
  folder: string,
  noun: string,
  id: string,
  answers = HOUSING,
): Readonly<Record<string, readonly ActionRow[]>> {
  const row = { at: `/setup/${folder}/${id}`, answers }
  return {
    [`(desk)/setup/${folder} add${noun}Action`]: [{ ...row, form: {} }],
    [`(desk)/setup/${folder} change${noun}Action`]: [{ ...row, form: { id } }],
  }
}

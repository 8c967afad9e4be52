/**
 * Somebody leaves: what is owed under the name, and that it goes to another first.
 */
import type { Said } from './said.ts'

type Owed = { readonly calls: number; readonly callBacks: number; readonly isOnTheLine: boolean }

export const LEAVER = {
  to: 'Pass them on to',
  toHint: 'Coordinators who are switched on. What was done stays under the name.',
  deskHead: 'What is owed',
  deskNote: 'Needed only where the role of coordinator is taken away.',
  none: 'Choose a coordinator',
  nobody: 'There is no other coordinator who is switched on. Add one first, or give somebody that role.',
  button: 'Pass on and switch off',
} as const

/** "Still to be passed on: 12 open calls, 18 call-backs and the line". */
export function dutiesWords({ calls, callBacks, isOnTheLine }: Owed): string {
  const parts = [
    ...(calls === 0 ? [] : [calls === 1 ? '1 open call' : `${calls} open calls`]),
    ...(callBacks === 0 ? [] : [callBacks === 1 ? '1 call-back' : `${callBacks} call-backs`]),
    ...(isOnTheLine ? ['the line'] : []),
  ]
  const last = parts.pop() ?? 'nothing'
  return `Still to be passed on: ${parts.length === 0 ? last : `${parts.join(', ')} and ${last}`}`
}

export const LEAVER_RULES: Readonly<Record<string, Said>> = {
  'duties-first': {
    say: 'Something is still owed',
    next: 'Choose who takes it over. Nothing changes until then.',
  },
}

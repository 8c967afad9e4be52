/**
 * Somebody leaves: what she owes by name, and that it goes to another first.
 */
import type { Said } from './said.ts'

type Owed = { readonly calls: number; readonly callBacks: number; readonly isOnTheLine: boolean }

export const LEAVER = {
  to: 'Pass them on to',
  toHint: 'Coordinators who are switched on. What she wrote stays under her name.',
  none: 'Choose a coordinator',
  nobody: 'There is no other coordinator who is switched on. Add one first, or give somebody that role.',
  button: 'Pass on and switch off',
} as const

/** "12 open calls, 18 call-backs and the line are hers". */
export function dutiesWords({ calls, callBacks, isOnTheLine }: Owed): string {
  const parts = [
    ...(calls === 0 ? [] : [calls === 1 ? '1 open call' : `${calls} open calls`]),
    ...(callBacks === 0 ? [] : [callBacks === 1 ? '1 call-back' : `${callBacks} call-backs`]),
    ...(isOnTheLine ? ['the line'] : []),
  ]
  const last = parts.pop() ?? 'Nothing'
  const all = parts.length === 0 ? last : `${parts.join(', ')} and ${last}`
  const isOne = parts.length === 0 && (isOnTheLine || calls + callBacks === 1)
  return `${all.charAt(0).toUpperCase()}${all.slice(1)} ${isOne ? 'is' : 'are'} hers`
}

export const LEAVER_RULES: Readonly<Record<string, Said>> = {
  'duties-first': {
    say: 'Something is still hers to do',
    next: 'Choose who takes it over. She stays switched on until then.',
  },
}

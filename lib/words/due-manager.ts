/**
 * What a manager and an administrator owe, in words: closures, tight spells, rules to review, gaps in setup.
 * Promise: counts are whole, and of many names the first few stand with how many more there are.
 */
import { dayOfInstant } from '#lib/domain/day.ts'
import type { DueAbout, Gap } from '#lib/domain/due.ts'
import { housingWords } from './care.ts'
import { perCent } from './chance.ts'
import { shortDate } from './dates.ts'

export type ManagersDue = Extract<DueAbout, { kind: 'closure' | 'tight' | 'review' | 'gap' }>

type Said = { readonly what: string; readonly more: string; readonly todo: string }

export function managerWords(about: ManagersDue, zone: string): Said {
  switch (about.kind) {
    case 'closure':
      return {
        what: `${about.enclosure} opens again`,
        more: `${about.centre}; shut: ${about.reason}`,
        todo: 'Check the closure',
      }
    case 'tight':
      return {
        what: `${housingWords(about.housing)} at ${about.centre} is tight`,
        more: `${about.days === 1 ? '1 day' : `${about.days} days`}, at worst ${perCent(about.chance)} chance of being short`,
        todo: 'See the weeks',
      }
    case 'review':
      return {
        what: about.rules === 1 ? '1 rule waits for review' : `${about.rules} rules wait for review`,
        more: `Last reviewed ${dateOf(about.reviewedOn, zone)}`,
        todo: 'Open setup',
      }
    case 'gap':
      return {
        what: gapWords(about.gap, about.count),
        more: namesWords(about.names, about.count),
        todo: 'Set it up',
      }
  }
}

const GAPS: Readonly<Record<Gap, readonly [one: string, many: string]>> = {
  'no-coordinator': ['Nobody can hold the line: no coordinator is switched on', ''],
  'no-centre': ['No centre is set up', ''],
  'centre-without-enclosure': ['1 centre has no enclosure', 'centres have no enclosure'],
  'centre-without-carer': ['1 centre has no carer', 'centres have no carer'],
  'centre-without-hours': ['1 centre has no opening hours', 'centres have no opening hours'],
  'enclosure-without-stocking': [
    '1 enclosure says not what may be in it',
    'enclosures say not what may be in them',
  ],
  'practice-without-animals': [
    '1 practice says not which animals it sees',
    'practices say not which animals they see',
  ],
}

function gapWords(gap: Gap, count: number): string {
  const [one, many] = GAPS[gap]
  return count === 1 ? one : `${count} ${many}`
}

function namesWords(names: readonly string[], count: number): string {
  const named = names.filter(name => name !== '')
  const rest = count - named.length
  if (named.length === 0) return ''
  return rest > 0 ? `${named.join(', ')} and ${rest} more` : named.join(', ')
}

function dateOf(at: Date, zone: string): string {
  return shortDate(dayOfInstant(at, zone))
}

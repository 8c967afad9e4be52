/**
 * What changed since the options were ranked, in words.
 */
import type { CallFacts } from '#lib/domain/call-facts.ts'
import type { Change } from '#lib/domain/standing.ts'

const FACT: { readonly [field in keyof CallFacts]?: string } = {
  dangers: 'The danger where it is',
  answers: 'An answer',
  species: "The animal's species",
  age: 'The age',
  count: 'How many there are',
  isBrood: 'Whether they belong together',
  where: 'The place',
  conditions: 'What is wrong',
  urgency: 'How urgent it is',
  isCaught: 'Whether it is caught',
  hasFinder: 'Whether somebody is with it',
  vetKeeps: "The vet's word",
  outsideExamination: 'The examination outside',
  authorityLeave: "The authority's leave",
}

/** "Averbrook lost a place", "The animal's species was changed by Joss Penhaddon". */
export function changeWords(change: Change, writers: Readonly<Record<string, string>>): string {
  switch (change.kind) {
    case 'fact': {
      const writer = writers[change.field]
      return `${FACT[change.field] ?? 'The sheet'} was changed${writer === undefined ? '' : ` by ${writer}`}`
    }
    case 'places':
      return `${change.centre} ${change.more < 0 ? 'lost' : 'gained'} ${placesWords(Math.abs(change.more))}`
    case 'offered':
      return `${change.who} can take it now`
    case 'not offered':
      return `${change.who} cannot take it any more`
    case 'order':
      return 'The chances in the weeks ahead changed'
  }
}

function placesWords(count: number): string {
  return count === 1 ? 'a place' : `${count} places`
}

/**
 * Why something is not offered: one sentence for each rule of placement.
 * Promise: each names who is ruled out and what would have to change. Refuses nothing.
 */
import type { DayNumber } from '#lib/domain/day.ts'
import type { RuledOut, RuledOutReason, RuledOutSubject } from '#lib/domain/option.ts'
import { longDate } from './dates.ts'
import { timeWords } from './option.ts'
import { housingWords } from './option-cost.ts'

/** "Skerrymoor": the part of the sentence that is set in bold. */
export function ruledOutWho(who: RuledOutSubject): string {
  switch (who.kind) {
    case 'keep till morning':
      return 'Keeping it till morning'
    case 'move':
      return `A move after ${who.stage}`
    case 'admission':
      return 'Bringing it in'
    default:
      return who.name
  }
}

/** "takes no birds: movement stop since 19 November". */
export function ruledOutWhy(cut: RuledOutReason, today: DayNumber): string {
  switch (cut.rule) {
    case 'inactive':
      return 'is switched off in setup'
    case 'takes no such group':
      return `does not take ${cut.group.toLowerCase()}`
    case 'not authorised':
      return `holds no licence for it: ${cut.licence}`
    case 'movement stop':
      return `takes and sends no ${cut.covers}: movement stop since ${longDate(cut.since)}`
    case 'closed to high risk':
      return 'is closed to animals of high risk for avian influenza'
    case 'isolation full':
      return 'has no isolation free, and this animal starts in isolation'
    case 'no more':
      return `says no more until ${timeWords(cut.until, today)}`
    case 'feeding rounds':
      return cut.can === 0
        ? 'hand-feeds no more for now, and this animal is fed by hand'
        : `can do ${cut.can} feeding rounds a day, and this animal needs about ${cut.needs}`
    case 'no housing':
      return `has no ${housingWords(cut.housing)} that fits, which ${cut.stage} needs`
    case 'shut':
      return cut.until === null ? 'is shut, and nobody opens' : `is shut until ${timeWords(cut.until, today)}`
    case 'no cover now':
      return 'has no vet on duty now'
    case 'no vet agreed':
      return 'needs a vet’s word: write down who agreed, and when to call back'
    case 'no centre follows':
      return 'leads nowhere: no centre can take it in the morning'
    case 'not caught':
      return 'needs somebody who has caught it'
    case 'nobody to keep it':
      return 'needs a finder, or a practice that keeps it'
    case 'notifiable suspect':
      return `waits for the authority’s leave: ${cut.disease} is suspected`
    case 'in isolation':
      return `is not offered: ${cut.next} follows in isolation, and nothing in isolation changes centres`
  }
}

/** The whole sentence. */
export function ruledOutSentence(cut: RuledOut, today: DayNumber): string {
  return `${ruledOutWho(cut.who)} ${ruledOutWhy(cut, today)}.`
}

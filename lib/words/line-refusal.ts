/**
 * What a person reads when something about the line is refused: the rules of the database and those of the service.
 */
import type { Said } from './said.ts'

const KEPT = 'Everything typed is kept.'

export const LINE_CONSTRAINTS: Readonly<Record<string, Said>> = {
  line_turn_one_holder: {
    say: 'Somebody took the line a moment ago',
    next: 'The page says who holds it now. Nothing passed to you.',
  },
  line_offer_one_open: {
    say: 'The line is offered already',
    next: 'Take that offer back first if somebody else is to have it.',
  },
  line_turn_ends_after_it_begins: {
    say: 'The end of a turn lies after its beginning',
    next: `Choose a later hour. ${KEPT}`,
  },
  line_turn_taken_over_with_a_reason: {
    say: 'Taking the line over needs a reason',
    next: 'Write why the holder could not hand it over.',
  },
  line_turn_within_limits: { say: 'A reason has at most 300 letters', next: `Shorten it. ${KEPT}` },
  line_offer_within_limits: {
    say: 'What is written to the next person has at most 2000 letters',
    next: `Shorten it. ${KEPT}`,
  },
  line_turn_is_append_only: {
    say: 'Who held the line stays as it was written',
    next: 'Hand the line over, or take it over with a reason.',
  },
  line_offer_is_append_only: {
    say: 'A handover that was answered stays as it was',
    next: 'Offer the line again.',
  },
}

export const LINE_RULES: Readonly<Record<string, Said>> = {
  'line-passed-already': {
    say: 'The line passed to somebody else a moment ago',
    next: 'The page says who holds it now. Nothing passed to you.',
  },
  'line-not-yours': {
    say: 'Somebody else holds the line',
    next: 'Only the holder hands it over. When the holder can not be reached, take it over with a reason.',
  },
  'line-yours-already': { say: 'You hold the line already', next: 'Nothing more is to be done.' },
  'line-offer-gone': {
    say: 'This offer is not open any more',
    next: 'The page says who holds the line now.',
  },
  'line-offered-to-another': {
    say: 'The line is offered to somebody else',
    next: 'That person accepts it, or you take it over with a reason.',
  },
  'duties-need-a-coordinator': {
    say: 'Calls, call-backs and the line pass to a coordinator only',
    next: 'Choose a coordinator who is switched on.',
  },
  'line-offered-to-herself': {
    say: 'The line is yours already',
    next: 'Choose the person who comes after you.',
  },
  'line-hour-not-ahead': {
    say: 'A turn ends within the next 24 hours',
    next: `Choose one of the hours shown. ${KEPT}`,
  },
}

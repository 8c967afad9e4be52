/**
 * What a person reads when a journey, a leg or a driver's word is refused: one sentence a rule, and what to do now.
 */
import type { Said } from './said.ts'

const LOOK = 'Look at what it says now. Everything typed is kept.'

export const ROAD_CONSTRAINTS: Readonly<Record<string, Said>> = {
  journey_goes_elsewhere: { say: 'It is at that centre already', next: 'Choose another one.' },
  journey_animal_one_open: {
    say: 'One of these animals is on another journey',
    next: 'Open that journey, or call it off first.',
  },
  journey_within_limits: { say: 'The words of this journey are too long', next: 'Shorten them.' },
  transfer_one_open: {
    say: 'Another move of this animal is under way',
    next: 'Cancel that one first, or let it arrive.',
  },
  move_aside_other_says_why: {
    say: 'Another reason is said in words',
    next: 'Write it, or choose one of the list. Everything typed is kept.',
  },
  move_aside_within_limits: {
    say: 'The words are too long',
    next: 'Shorten them to 200 signs. Everything typed is kept.',
  },
  transfer_goes_elsewhere: { say: 'It is at that centre already', next: 'Choose another one.' },
  leg_due_after_pick_up: { say: 'A leg is due after it is picked up', next: 'Change one of the two times.' },
  leg_one_of_a_number: { say: 'Somebody gave this leg to another driver a moment ago', next: LOOK },
  leg_one_on_the_road: { say: 'Another driver has just taken it up', next: LOOK },
  leg_within_limits: {
    say: 'A meeting point is missing, or its words are too long',
    next: 'Say where it is picked up and where it goes, in 200 letters at most.',
  },
}

export const ROAD_RULES: Readonly<Record<string, Said>> = {
  'legs-in-order': {
    say: 'A leg would be picked up before the one before it is there',
    next: 'Give a later hour, so that the animal never waits alone.',
  },
  'journey-from-one-place': {
    say: 'These animals are not in one place',
    next: 'Plan a journey for each place they are at.',
  },
  'journey-of-an-open-casualty': {
    say: 'The case of one of these animals is closed',
    next: 'If it is here after all, record where it is first.',
  },
  'journey-finder-has-none': {
    say: 'The finder does not have this animal',
    next: 'Choose a driver.',
  },
  'journey-over': { say: 'This journey is over', next: LOOK },
  'journey-begun': {
    say: 'It is on the road already',
    next: 'Let it turn back, or give the leg to another driver.',
  },
  'journey-not-begun': { say: 'It has not set off yet', next: 'Call the journey off instead.' },
  'journey-nowhere-back': {
    say: 'It came from no centre, so there is none to turn back to',
    next: 'Give the leg to another driver, or plan another journey once it stands still.',
  },
  'journey-turned-already': { say: 'It has been told to turn back already', next: LOOK },
  'leg-not-begun': { say: 'Nobody has it on this leg yet', next: 'Say first who has it.' },
  'leg-over': { say: 'This leg is over, or somebody else drives it now', next: LOOK },
  'transfer-from-a-centre': {
    say: 'Only an animal that is at a centre is moved between centres',
    next: 'Plan a drive instead, or record where it is first.',
  },
  'transfer-on-the-road': { say: 'It is on the road already', next: 'Let the journey turn back.' },
  'transfer-over': { say: 'This move is over', next: LOOK },
  'transfer-time-ahead': {
    say: 'A move is expected within the next 30 days',
    next: 'Give an hour that is still to come.',
  },
  'driver-drives': {
    say: 'This driver has an animal on the road, or a leg to drive',
    next: 'Give the leg to another driver first.',
  },
  'driver-switched-off': { say: 'This driver is switched off', next: 'Choose another one.' },
}

/** Who stands in the way of switching a driver off. */
export function drivesWords(references: readonly string[]): string {
  return `This driver has an animal on the road, or a leg to drive: ${references.join(', ')}`
}

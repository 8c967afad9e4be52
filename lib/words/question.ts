/**
 * The questions of a call, as they are asked on the phone.
 * Promise: one plain sentence for every question a condition can ask; the answer buttons and what a yes means to the
 * person who asks.
 */
import type { Answer, OpenQuestion, Question, YesNoQuestion } from '#lib/domain/question.ts'
import { isYesNoQuestion } from '#lib/domain/question.ts'

const YES_NO: Readonly<Record<YesNoQuestion, string>> = {
  danger:
    'Is anybody in danger there: road, rail, water, cliff, power line, or an animal big enough to hurt?',
  bitten: 'Has it bitten or scratched anybody, or licked a wound?',
  'several-dead': 'Are there other sick or dead birds nearby?',
  nerves: 'Does it twist its neck, tremble, fall over or swim in circles, or is an eye cloudy?',
  breathing: 'Does it struggle to breathe, or gape?',
  bleeding: 'Is it bleeding now?',
  conscious: 'Does it react when you come near?',
  'bone-through-skin': 'Can you see bone through the skin?',
  injury: 'Can you see any injury: blood, a wing that hangs, a leg that dangles?',
  'other-injury': 'Is anything else hurt?',
  cat: 'Could a cat have had it, even for a moment?',
  flies: 'Are there flies, maggots, or eggs like grains of rice on it?',
  'line-from-mouth': 'Does a line hang from its mouth?',
  oil: 'Is there oil or anything sticky on it?',
  wobbling: 'Does it wobble, or feel cold to a gloved hand?',
  parents: 'Have you seen a parent near it?',
  touched: 'Has anybody touched or moved it?',
  'person-touched-it': 'Has anybody touched it with bare hands?',
  'dog-about': 'Are there loose dogs about?',
  'nest-known': 'Do you know where the nest is, and can it be reached?',
  'other-young': 'Are there other young with it?',
  'young-nearby': 'Are there young nearby that depend on it?',
  'young-season': 'Could there be young in there with it?',
  'carrying-young': 'Could it be carrying young?',
  'both-eyes-open': 'Are both eyes open?',
  'one-or-both-bones': 'Has anybody said that both bones are broken?',
  'weight-under-1kg': 'Is it lighter than a bag of sugar, 1 kg?',
  'can-it-be-caught': 'Can you get close to it?',
  'on-water': 'Is it on the water?',
  'several-affected': 'Are several animals affected?',
  'gull-goose-swan-duck-or-raptor': 'Is it a gull, goose, swan, duck or bird of prey?',
  'pets-in-contact': 'Have pets been close to it?',
  'pets-or-poultry': 'Do you keep poultry or pets at home?',
  'pet-rabbits-at-home': 'Do you keep rabbits at home?',
  'bait-seen': 'Is there bait, pellets or a carcass beside it?',
  'wire-live': 'Is it on or under a wire that may be live?',
}

const OPEN: Readonly<Record<OpenQuestion, string>> = {
  'since-when': 'Since when has it been like this?',
  age: 'Is it naked, downy or feathered; eyes open or shut?',
  'size-of-animal': 'How big is it?',
  'which-species': 'Which animals are they?',
  'what-substance': 'What is it covered with?',
  'how-long': 'How long has it been in there?',
  'how-long-hanging': 'How long has it been hanging?',
  height: 'How high up is it?',
  weight: 'What does it weigh?',
  'how-many': 'How many are there?',
  'kept-since': 'Since when has it been kept?',
  'case-number': 'Is there a case number?',
}

/** What is asked, as a sentence. */
export function questionWords(question: Question): string {
  return isYesNoQuestion(question) ? YES_NO[question] : OPEN[question]
}

const ANSWER: Readonly<Record<Answer, string>> = { yes: 'Yes', no: 'No', unknown: 'Not known' }

/** What stands on an answer's button. */
export function answerWords(answer: Answer): string {
  return ANSWER[answer]
}

const SHORT: Readonly<Partial<Record<YesNoQuestion, string>>> = {
  bleeding: 'it bleeds',
  breathing: 'it struggles to breathe',
  conscious: 'it does not react',
  'bone-through-skin': 'bone shows through the skin',
  flies: 'flies have laid on it',
  wobbling: 'it wobbles or is cold',
  cat: 'a cat may have had it',
  injury: 'it is hurt',
  'other-injury': 'something else is hurt',
  'line-from-mouth': 'a line hangs from its mouth',
  oil: 'it is oiled',
  danger: 'somebody or something is in danger there',
}

/** What an answer says, as the end of "because ...". */
export function answeredWords(question: YesNoQuestion): string {
  return SHORT[question] ?? 'of what was answered'
}

/**
 * What to beware of, in words: one heading and what to do, each with its mark.
 * Promise: a sentence for every caution of the table; numbers and duties are those of the sources in the reference.
 */
import type { Caution, CautionId } from '#lib/domain/caution.ts'
import type { NotifiableReason } from '#lib/domain/notifiable.ts'
import { capital } from './capital.ts'
import { markWords } from './mark.ts'

export type CautionSaid = { readonly head: string; readonly say: string; readonly mark: string }

type Pair = { readonly head: string; readonly say: string }

const SAID: Readonly<Record<CautionId, Pair>> = {
  'notifiable-suspect': {
    head: 'Suspected notifiable disease: examined outside, never brought in',
    say: 'Nobody touches it. Report it to the authority at once. A negative quick test changes nothing, and an injury does not rule it out.',
  },
  'notifiable-screen': {
    head: 'Bird flu risk group: looked at outside first',
    say: 'Gloves and mask. Ask about other sick or dead birds and about twisted necks or tremor. An injury does not rule it out.',
  },
  'stay-away': {
    head: 'Do not approach',
    say: 'Stay at a distance and keep dogs and people away. The responsible service is called: police or road service on a road, the railway, the coastguard at water or cliff, the network operator at a power line.',
  },
  bats: {
    head: 'Bats: never with bare hands',
    say: 'After a bite, a scratch or saliva in a wound: wash at least five minutes with soap and water, then medical advice at once.',
  },
  bitten: {
    head: 'Somebody was bitten or scratched',
    say: 'Wash it with soap and water now and ring a doctor today. Write down who and when.',
  },
  'seal-bite': {
    head: 'Seal bites infect badly',
    say: 'Stay out of reach of its mouth. After a bite: a doctor the same day.',
  },
  'young-alone': {
    head: 'Young that look alone are often not',
    say: 'Leave it, but only after asking about injury, cat and danger. Watch from a distance; parents stay away while people are near.',
  },
  eyes: {
    head: 'It stabs at eyes',
    say: 'Eye protection for everybody near it. Hold the head first.',
  },
  talons: {
    head: 'The feet are the weapon',
    say: 'Thick gloves. Control the feet first, then cover the head.',
  },
  'not-alone': {
    head: 'Two people',
    say: 'Nobody handles it alone.',
  },
  finder: {
    head: 'No food, no drink, no medicine',
    say: 'A dark box with air holes and a towel, warm and quiet. No looking in. Has it bitten or scratched anybody?',
  },
  zoonoses: {
    head: 'It can pass illness to people',
    say: 'Gloves, then wash hands. Pregnant people and those with weak immunity keep away.',
  },
  transport: {
    head: 'On the road',
    say: 'Dark, ventilated, secure, never in a closed boot, predator and prey apart. Water on journeys beyond 4 hours. Limits in hours are common practice only.',
  },
  'driver-rest': {
    head: 'For the driver',
    say: 'Not when tired, no phone in motion, meet where it is lit, check in on arrival.',
  },
  'coracoid-first': {
    head: 'Closed coracoid: ask before surgery is sought',
    say: 'Cage rest released 75 % in one series, 97 % of raptors; one small series says the opposite. The vet decides.',
  },
  licence: {
    head: 'Licence',
    say: 'Keeping or letting go this species is bound to rules with dates. The clock runs from arrival, whoever it is named later.',
  },
  carcass: {
    head: 'The body may poison scavengers',
    say: 'It is kept out of reach and handed to the vet or the collection for animal waste, never left or buried in the open.',
  },
}

/** What a caution says. */
export function cautionSaid(id: CautionId): Pair {
  return SAID[id]
}

/** What a caution says, with how far it can be trusted. */
export function cautionWords(caution: Caution): CautionSaid {
  return { ...SAID[caution.id], mark: markWords(caution.mark) }
}

const BECAUSE: Readonly<Record<NotifiableReason, string>> = {
  'said so': 'the caller described it',
  'several sick or dead': 'several birds are sick or dead',
  nerves: 'it shows signs of the nerves',
  breathing: 'it struggles to breathe and belongs to a group at risk',
}

/** "Avian influenza is suspected: several birds are sick or dead". */
export function suspicionWords(disease: string, because: readonly NotifiableReason[]): string {
  const name = capital(disease)
  return `${name} is suspected: ${because.map(one => BECAUSE[one]).join(', ')}`
}

/** Said once where surgery, medicine, prognosis or euthanasia come up. */
export const VET_DECIDES =
  'Surgery, medicine, prognosis and euthanasia are the decisions of a veterinary surgeon under local law.'
export const LICENCE_DUTY =
  'Licences for protected, invasive or notifiable cases are the duty of the centre that keeps the animal.'

/** "Rule last reviewed on 3 March 2026", or that nobody has. */
export function reviewedWords(on: string | null): string {
  return on === null ? 'Nobody has noted when this rule was last reviewed' : `Rule last reviewed on ${on}`
}

const HANDLING: Readonly<Record<string, string>> = {
  'hpai-outside-first':
    'Bird flu risk group: assess outside, gloves and mask; a negative quick test changes nothing',
  'no-bare-hands-bat': 'Never with bare hands',
  talons: 'Control the feet first, thick gloves',
  'bill-eyes': 'Eye protection, hold the head',
  'bill-bite': 'Strong bill: holds and cuts',
  'wing-blow': 'Fold and wrap the wings: a blow can bruise or break',
  bite: 'Bites hard: gloves, trap or net',
  'not-alone': 'Two people',
  'large-dangerous': 'Do not approach; call the responsible service',
  'capture-stress': 'May not survive rough handling: dark, quiet, quick',
  'keel-care': 'No hard floor, water soon',
  'feather-care': 'Never grip or tape flight feathers',
  'spits-oil': 'Spits stomach oil',
  spines: 'Thick gloves or a folded towel',
  'zoonosis-general': 'Gloves and hand washing',
  'zoonosis-psittacosis': 'Dust from droppings: mask, ventilation',
  'zoonosis-salmonella': 'Droppings: gloves, hand washing',
  'zoonosis-ringworm': 'Skin infection by touch: gloves',
  'zoonosis-leptospirosis': 'Urine: gloves, cover cuts',
  'zoonosis-mange': 'Mites by touch: gloves',
  'zoonosis-tb': 'Bovine tuberculosis: mask, test rules for cubs',
  'zoonosis-seal-bite': 'A bite needs a doctor the same day',
}

/** How to handle a species, from its handling keys. */
export function handlingWords(keys: readonly string[]): string[] {
  return keys.map(key => (Object.hasOwn(HANDLING, key) ? (HANDLING[key] ?? key) : key))
}

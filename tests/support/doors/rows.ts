/**
 * What every door of the program answers to every role: one literal table each for pages and routes, and for actions.
 * Written by hand from who may do what; a door without a row fails the test that reads this.
 *
 * Six answers a row, in this order: coordinator, carer of the hospital, carer of the ward, partner vet, manager,
 * administrator. A row that is another centre's or another practice's is 404; a right that is refused is 403.
 */
import { ASIDE_ACTIONS, GROUP_ACTIONS } from './group-rows.ts'
import type { Fields } from './knock.ts'
import { addsAndChanges, HOUSING, housing } from './setup-rows.ts'

/** Addresses and fields name rows of the seeded network in braces; the test puts their numbers in. */
export type DoorRow = { readonly at: string; readonly answers: string; readonly nobody?: string }
export type ActionRow = {
  /** From which page it is called. */
  readonly at: string
  readonly form: Fields
  readonly answers: string
  readonly nobody?: 'yes' | '404'
  /** Whoever is let through has an animal of her own to do it to, since afterwards it is somewhere else. */
  readonly spends?: true
}

const EVERYBODY = '200 200 200 200 200 200'
const NOWHERE = '404 404 404 404 404 404'
const SETUP = '200 403 403 403 200 200'
const PEOPLE = '403 403 403 403 200 200'
const ADDS_HOUSING = '403 403 403 403 403 200'
const ADDS_PLANS_OF_YEAR = '403 403 403 403 200 200'

/** The list of one kind of row, the form that adds one, and one row. */
function listAddChange(
  folder: string,
  id: string,
  adds: string = ADDS_HOUSING,
): Readonly<Record<string, readonly DoorRow[]>> {
  return {
    [`/setup/${folder}`]: [{ at: `/setup/${folder}`, answers: SETUP }],
    [`/setup/${folder}/new`]: [{ at: `/setup/${folder}/new`, answers: adds }],
    [`/setup/${folder}/[id]`]: [{ at: `/setup/${folder}/${id}`, answers: SETUP }],
  }
}

/** Pages and routes that are read; signed out, a page leads to the sign-in page and a route says 401. */
export const DOORS: Readonly<Record<string, readonly DoorRow[]>> = {
  '/': [{ at: '/', answers: EVERYBODY, nobody: '200' }],
  '/sign-in': [{ at: '/sign-in', answers: 'to / '.repeat(6), nobody: '200' }],
  '/sign-in/forgot': [{ at: '/sign-in/forgot', answers: EVERYBODY, nobody: '200' }],
  // What never was a link is nothing here.
  '/password/[token]': [{ at: '/password/nothing', answers: NOWHERE, nobody: '404' }],
  '/me': [{ at: '/me', answers: EVERYBODY }],
  '/calls': [{ at: '/calls', answers: '200 403 403 403 200 403' }],
  '/calls/[id]': [{ at: '/calls/{call}', answers: '200 403 403 403 200 403' }],
  '/door': [{ at: '/door', answers: '200 to /door/{hospital} to /door/{ward} 403 403 403' }],
  '/door/[centreId]': [
    { at: '/door/{hospital}', answers: '200 200 404 404 403 403' },
    { at: '/door/{ward}', answers: '200 404 200 404 403 403' },
  ],
  '/asks/[id]': [
    { at: '/asks/{ask}', answers: '200 403 403 403 200 403' },
    { at: '/asks/999999', answers: '404 403 403 403 404 403' },
  ],
  // Whoever has the link; what is no link says so.
  '/answer/[token]': [
    { at: '/answer/{token}', answers: EVERYBODY, nobody: '200' },
    { at: '/answer/nothing', answers: EVERYBODY, nobody: '200' },
  ],
  '/drive/[token]': [
    { at: '/drive/{driveToken}', answers: EVERYBODY, nobody: '200' },
    { at: '/drive/nothing', answers: EVERYBODY, nobody: '200' },
  ],
  '/moves': [{ at: '/moves', answers: '200 403 403 403 200 403' }],
  '/moves/new': [{ at: '/moves/new?animal={inHospital}', answers: '200 403 403 403 403 403' }],
  '/moves/[id]': [
    { at: '/moves/{journey}', answers: '200 403 403 403 200 403' },
    { at: '/moves/999999', answers: '404 403 403 403 404 403' },
  ],
  '/due': [{ at: '/due', answers: EVERYBODY }],
  '/line': [{ at: '/line', answers: '200 403 403 403 200 403' }],
  '/casualties': [{ at: '/casualties', answers: EVERYBODY }],
  '/releases': [{ at: '/releases', answers: EVERYBODY }],
  '/casualties/[reference]': [
    { at: '/casualties/{inHospital}', answers: '200 200 404 404 200 200' },
    { at: '/casualties/{inWard}', answers: '200 404 200 404 200 200' },
    { at: '/casualties/{withVet}', answers: '200 404 404 200 200 200' },
    { at: '/casualties/{withOtherVet}', answers: '200 404 404 404 200 200' },
    { at: '/casualties/Nobody%201', answers: '404 404 404 404 404 404' },
  ],
  // A carer of one centre has no choice to make there.
  '/round': [{ at: '/round', answers: '200 to /round/{hospital} to /round/{ward} 403 200 403' }],
  '/round/[centreId]': [
    { at: '/round/{hospital}', answers: '200 200 404 404 200 404' },
    { at: '/round/{ward}', answers: '200 404 200 404 200 404' },
  ],
  '/round/[centreId]/cards': [
    { at: '/round/{hospital}/cards', answers: '200 200 404 404 200 404' },
    { at: '/round/{ward}/cards', answers: '200 404 200 404 200 404' },
  ],
  '/round/[centreId]/sheet': [
    { at: '/round/{hospital}/sheet', answers: '200 200 404 404 200 404' },
    { at: '/round/{ward}/sheet', answers: '200 404 200 404 200 404' },
  ],
  '/weeks': [{ at: '/weeks', answers: '200 200 200 403 200 403' }],
  '/weeks/[centreId]': [
    { at: '/weeks/{hospital}', answers: '200 200 404 404 200 404' },
    { at: '/weeks/{ward}', answers: '200 404 200 404 200 404' },
  ],
  '/records': [{ at: '/records', answers: '200 200 200 403 200 403' }],
  '/records/came-true': [{ at: '/records/came-true', answers: '200 200 200 403 200 403' }],
  '/records/[key]': [{ at: '/records/nothing%7C1', answers: '404 404 404 403 404 403' }],
  '/setup': [{ at: '/setup', answers: SETUP }],
  '/setup/arrivals': [{ at: '/setup/arrivals', answers: SETUP }],
  '/setup/arrivals/new': [{ at: '/setup/arrivals/new', answers: ADDS_PLANS_OF_YEAR }],
  '/setup/arrivals/[id]': [{ at: '/setup/arrivals/{arrivals}', answers: SETUP }],
  '/setup/centres': [{ at: '/setup/centres', answers: SETUP }],
  '/setup/centres/new': [{ at: '/setup/centres/new', answers: ADDS_HOUSING }],
  '/setup/centres/[id]': [{ at: '/setup/centres/{hospital}', answers: SETUP }],
  '/setup/closures': [{ at: '/setup/closures', answers: SETUP }],
  '/setup/closures/new': [{ at: '/setup/closures/new', answers: ADDS_PLANS_OF_YEAR }],
  '/setup/closures/[id]': [{ at: '/setup/closures/{closure}', answers: SETUP }],
  '/setup/enclosures': [{ at: '/setup/enclosures', answers: SETUP }],
  '/setup/enclosures/new': [{ at: '/setup/enclosures/new', answers: ADDS_HOUSING }],
  '/setup/enclosures/[id]': [{ at: '/setup/enclosures/{enclosure}', answers: SETUP }],
  '/setup/people': [{ at: '/setup/people', answers: PEOPLE }],
  '/setup/people/new': [{ at: '/setup/people/new', answers: ADDS_HOUSING }],
  '/setup/people/[id]': [{ at: '/setup/people/{person}', answers: PEOPLE }],
  '/setup/stops': [{ at: '/setup/stops', answers: SETUP }],
  '/setup/stops/new': [{ at: '/setup/stops/new', answers: SETUP }],
  '/setup/stops/[id]': [{ at: '/setup/stops/{stop}', answers: SETUP }],
  ...listAddChange('companies', '{company}'),
  ...listAddChange('species', '{species}'),
  ...listAddChange('rules', 'handling.talons'),
  ...listAddChange('seasons', 'swift.migration', ADDS_PLANS_OF_YEAR),
  ...listAddChange('conditions', '{condition}'),
  '/setup/walk/[id]': [{ at: '/setup/walk/{hospital}', answers: SETUP }],
  '/setup/groups': [{ at: '/setup/groups', answers: SETUP }],
  '/setup/groups/new': [{ at: '/setup/groups/new', answers: ADDS_HOUSING }],
  '/setup/groups/[id]': [
    { at: '/setup/groups/{group}', answers: SETUP },
    { at: '/setup/groups/no-such', answers: '404 403 403 403 404 404' },
  ],
  ...listAddChange('places', '{place}', ADDS_PLANS_OF_YEAR),
  '/setup/places/import': [{ at: '/setup/places/import', answers: ADDS_PLANS_OF_YEAR }],
  'GET /api/pictures/[id]/[size]': [
    { at: '/api/pictures/{picture}/whole', answers: '200 200 404 404 200 200', nobody: '401' },
    { at: '/api/pictures/{picture}/larger', answers: NOWHERE, nobody: '401' },
  ],
  'GET /api/answers/[token]/pictures/[id]/[size]': [
    { at: '/api/answers/nothing/pictures/{picture}/whole', answers: NOWHERE, nobody: '404' },
  ],
  'GET /api/gazetteer': [{ at: '/api/gazetteer', answers: '200 403 403 403 200 200', nobody: '401' }],
  '/setup/plans': [{ at: '/setup/plans', answers: SETUP }],
  '/setup/plans/new': [{ at: '/setup/plans/new', answers: ADDS_HOUSING }],
  '/setup/plans/[id]': [{ at: '/setup/plans/{plan}', answers: SETUP }],
  '/setup/policy': [{ at: '/setup/policy', answers: SETUP }],
  '/setup/practices': [{ at: '/setup/practices', answers: SETUP }],
  '/setup/practices/new': [{ at: '/setup/practices/new', answers: ADDS_HOUSING }],
  '/setup/practices/[id]': [{ at: '/setup/practices/{practice}', answers: SETUP }],
  ...listAddChange('drivers', '{driver}', ADDS_PLANS_OF_YEAR),
  '/setup/rooms': [{ at: '/setup/rooms', answers: SETUP }],
  '/setup/rooms/new': [{ at: '/setup/rooms/new', answers: ADDS_HOUSING }],
  '/setup/rooms/[id]': [{ at: '/setup/rooms/{room}', answers: SETUP }],
  'GET /api/casualties': [{ at: '/api/casualties', answers: '200 403 403 403 200 403', nobody: '401' }],
  'GET /api/weeks': [{ at: '/api/weeks?days=14', answers: '200 403 403 403 200 403', nobody: '401' }],
  'GET /api/events': [
    { at: '/api/events', answers: EVERYBODY, nobody: '401' },
    { at: '/api/events?about=call', answers: EVERYBODY, nobody: '401' },
  ],
  // No provider is set, so there is none to lead to.
  'GET /sign-in/provider': [
    { at: '/sign-in/provider', answers: 'to /sign-in '.repeat(6), nobody: 'to /sign-in' },
  ],
  'GET /sw.js': [{ at: '/sw.js', answers: EVERYBODY, nobody: '200' }],
  'GET /api/me': [{ at: '/api/me', answers: EVERYBODY, nobody: '401' }],
  'GET /api/health': [{ at: '/api/health', answers: EVERYBODY, nobody: '200' }],
  'GET /api/auth/[...nextauth]': [{ at: '/api/auth/session', answers: EVERYBODY, nobody: '200' }],
}

/** Routes that write: what a form without a field comes to, and one from another site. */
export const WRITES: Readonly<Record<string, readonly DoorRow[]>> = {
  'POST /api/round': [{ at: '/api/round', answers: '422 422 422 403 403 403', nobody: '401' }],
  'POST /api/calls/[id]/sheet': [
    { at: '/api/calls/{call}/sheet', answers: '200 403 403 403 403 403', nobody: '401' },
  ],
}

/** Answers of its own, next-auth's: without its token nothing is posted there (sign-in.spec.ts signs in elsewhere). */
export const NOT_OURS: readonly string[] = ['POST /api/auth/[...nextauth]']

const ANIMAL = { casualtyId: '{animal}', reference: 'x' }
const CARD = '/casualties/{inHospital}'
const SAYS = 'yes yes 404 404 403 404'
const MOVE = '/moves/{journey}'
const ASK = '/asks/{ask}'
const ASKS = 'yes 403 403 403 403 403'
const RECORDS = 'yes yes 404 404 403 403'
const JUDGES = '403 403 403 403 yes 403'
const SITE_STATE = 'yes 403 403 403 yes yes'
const OF_YEAR = '403 403 403 403 yes yes'
const WORD = { stageNo: '1', longer: '2', unit: 'weeks', saidBy: 'Dr Thessaly' }
const NO_LINK = { token: 'nothing', newPassword: 'a heron in the shallows' }
const IN = 'yes yes yes yes yes yes'

/** Server actions, called with fields that would be let through, so that only the right can refuse them. */
export const ACTIONS: Readonly<Record<string, readonly ActionRow[]>> = {
  ...ASIDE_ACTIONS,
  ...GROUP_ACTIONS,
  '(desk)/records judgingAsked': [{ at: '/records/came-true', form: {}, answers: JUDGES }],
  '(desk)/records judgingCancelled': [{ at: '/records/came-true', form: {}, answers: JUDGES }],
  '(public)/sign-in signIn': [{ at: '/sign-in', form: {}, answers: IN, nobody: 'yes' }],
  '(public)/sign-in askForLink': [{ at: '/sign-in/forgot', form: {}, answers: IN, nobody: 'yes' }],
  '(public)/password setMyPassword': [
    { at: '/password/nothing', form: NO_LINK, answers: NOWHERE, nobody: '404' },
  ],
  '(public)/sign-in signOut': [{ at: '/calls', form: {}, answers: IN, nobody: 'yes' }],
  '(public) answerWaitingCall': [{ at: '/', form: {}, answers: IN, nobody: 'yes' }],
  '(public)/answer answerAsk': [
    { at: '/answer/{token}', form: { token: '{token}' }, answers: IN, nobody: 'yes' },
  ],
  '(public)/drive saidOfDrive': [
    { at: '/drive/{driveToken}', form: { token: '{driveToken}' }, answers: IN, nobody: 'yes' },
  ],
  '(desk)/moves planned': [{ at: '/moves', form: {}, answers: ASKS }],
  '(desk)/moves proposed': [{ at: '/moves', form: { casualtyId: '{animal}' }, answers: ASKS }],
  '(desk)/moves cancelled': [{ at: '/moves', form: { transferId: '{transfer}' }, answers: ASKS }],
  '(desk)/moves wroteDown': [{ at: MOVE, form: { legId: '{leg}' }, answers: ASKS }],
  '(desk)/moves gaveOn': [{ at: MOVE, form: { legId: '{leg}' }, answers: ASKS }],
  '(desk)/moves madeLink': [{ at: MOVE, form: { legId: '{leg}' }, answers: ASKS }],
  '(desk)/moves turnedBack': [{ at: MOVE, form: { journeyId: '{journey}' }, answers: ASKS }],
  '(desk)/moves calledOff': [{ at: MOVE, form: { journeyId: '{journey}' }, answers: ASKS }],
  '(desk)/asks answered': [{ at: ASK, form: { askId: '{ask}' }, answers: ASKS }],
  '(desk)/asks wentOn': [{ at: ASK, form: { askId: '{ask}' }, answers: ASKS }],
  '(desk)/asks tookBack': [{ at: ASK, form: { askId: '{ask}' }, answers: ASKS }],
  '(desk)/asks madeLink': [{ at: ASK, form: { askId: '{ask}' }, answers: ASKS }],
  '(desk)/asks referred': [{ at: CARD, form: ANIMAL, answers: ASKS }],
  '(desk)/calls takeCall': [{ at: '/calls', form: {}, answers: 'yes 403 403 403 403 403' }],
  '(desk)/calls answerSheet': [
    { at: '/calls', form: { callId: '{call}', do: 'rank' }, answers: 'yes 403 403 403 403 403' },
    { at: '/calls', form: { callId: '{call}', do: 'park' }, answers: 'yes 403 403 403 403 403' },
    { at: '/calls', form: { callId: '{call}', do: 'next' }, answers: 'yes 403 403 403 403 403' },
    { at: '/calls', form: { callId: '{call}', same: '{otherCall}' }, answers: 'yes 403 403 403 403 403' },
    { at: '/calls', form: { callId: '{call}', take: 'nothing' }, answers: 'yes 403 403 403 403 403' },
  ],
  '(desk)/calls toldApart': [
    { at: '/calls', form: { callId: '{call}', otherId: '{otherCall}' }, answers: 'yes 403 403 403 403 403' },
  ],
  '(desk)/calls calledBack': [
    { at: '/calls', form: { callBackId: '{callBack}' }, answers: 'yes 403 403 403 403 403' },
  ],
  '(desk)/round saidNoMore': [
    { at: '/round/{hospital}', form: { centreId: '{hospital}', day: '{dayAhead}' }, answers: SAYS },
  ],
  '(desk)/round saidRounds': [
    { at: '/round/{hospital}', form: { centreId: '{hospital}', rounds: '8' }, answers: SAYS },
  ],
  '(desk)/round tookWordBack': [
    { at: '/round/{hospital}', form: { centreId: '{hospital}', kind: 'no-more' }, answers: SAYS },
    { at: '/round/{hospital}', form: { centreId: '{hospital}', kind: 'feeding-rounds' }, answers: SAYS },
  ],
  '(desk)/due rangBack': [
    { at: '/due', form: { callBackId: '{callBack}' }, answers: 'yes 403 403 403 403 403' },
  ],
  ...onTheLine('offered'),
  ...onTheLine('takenBack'),
  ...onTheLine('stayed'),
  ...onTheLine('accepted'),
  ...onTheLine('takenOver'),
  '(desk)/casualties arrived': [{ at: CARD, form: { ...ANIMAL, centreId: '{hospital}' }, answers: RECORDS }],
  '(desk)/casualties moved': [{ at: CARD, form: { ...ANIMAL, centreId: '{hospital}' }, answers: RECORDS }],
  '(desk)/casualties handedOver': [
    { at: CARD, form: { ...ANIMAL, keeper: 'practice:{otherPractice}' }, answers: RECORDS, spends: true },
  ],
  '(desk)/casualties ready': [{ at: CARD, form: { ...ANIMAL, stageNo: '1' }, answers: RECORDS }],
  '(desk)/casualties wentOn': [{ at: CARD, form: { ...ANIMAL, stageNo: '1' }, answers: RECORDS }],
  '(desk)/casualties checked': [
    { at: CARD, form: { ...ANIMAL, checkId: '{check}', passed: 'yes' }, answers: RECORDS },
    // A weight that comes with a check is recorded first, and asks by itself.
    { at: CARD, form: { ...ANIMAL, checkId: '{check}', passed: 'no', grams: '120' }, answers: RECORDS },
  ],
  '(desk)/casualties weightAnswered': [
    { at: CARD, form: { ...ANIMAL, weightId: '{weight}', isSure: 'yes' }, answers: RECORDS },
  ],
  '(desk)/casualties overwintered': [
    { at: CARD, form: ANIMAL, answers: RECORDS },
    { at: CARD, form: { casualtyId: '{vetsAnimal}' }, answers: 'yes 404 404 yes 403 403' },
  ],
  '(desk)/casualties licenceSaid': [
    { at: CARD, form: { ...ANIMAL, key: 'bat-6-months', words: 'Told' }, answers: RECORDS },
  ],
  '(desk)/casualties waited': [{ at: CARD, form: ANIMAL, answers: RECORDS }],
  '(desk)/casualties operated': [
    { at: CARD, form: { ...ANIMAL, what: 'Ulna pinned', side: 'left' }, answers: RECORDS },
    {
      at: CARD,
      form: { casualtyId: '{vetsAnimal}', what: 'Ulna pinned', side: 'left' },
      answers: 'yes 404 404 yes 403 403',
    },
  ],
  '(desk)/casualties operationTakenBack': [
    { at: CARD, form: { ...ANIMAL, surgeryId: '{surgery}' }, answers: RECORDS },
  ],
  '(desk)/casualties vetSaid': [
    { at: CARD, form: { ...ANIMAL, ...WORD }, answers: RECORDS },
    { at: CARD, form: { casualtyId: '{vetsAnimal}', ...WORD }, answers: 'yes 404 404 yes 403 403' },
  ],
  '(desk)/casualties vetWordTakenBack': [
    { at: CARD, form: { ...ANIMAL, wordId: '{vetWord}' }, answers: RECORDS },
    {
      at: CARD,
      form: { casualtyId: '{vetsAnimal}', wordId: '{vetsWord}' },
      answers: 'yes 404 404 yes 403 403',
    },
  ],
  '(desk)/casualties pictureAdded': [
    { at: CARD, form: { ...ANIMAL, kind: 'radiograph' }, answers: RECORDS },
    {
      at: CARD,
      form: { casualtyId: '{vetsAnimal}', kind: 'radiograph' },
      answers: 'yes 404 404 yes 403 403',
    },
  ],
  '(desk)/casualties pictureTakenBack': [
    { at: CARD, form: { ...ANIMAL, attachmentId: '{picture}', because: 'Another' }, answers: RECORDS },
  ],
  '(desk)/casualties weighed': [{ at: CARD, form: { ...ANIMAL, grams: '120' }, answers: RECORDS }],
  '(desk)/casualties noted': [{ at: CARD, form: { ...ANIMAL, words: 'Seen' }, answers: RECORDS }],
  '(desk)/casualties revised': [
    { at: CARD, form: { ...ANIMAL, ...revision() }, answers: RECORDS },
    { at: CARD, form: { casualtyId: '{vetsAnimal}', ...revision() }, answers: 'yes 404 404 yes 403 403' },
  ],
  '(desk)/casualties named': [
    { at: CARD, form: { ...ANIMAL, species: 'robin', age: 'adult' }, answers: RECORDS },
  ],
  '(desk)/casualties ended': [
    {
      at: CARD,
      form: { ...ANIMAL, alive: 'alive', whereNow: 'in the wild' },
      answers: RECORDS,
      spends: true,
    },
    {
      at: CARD,
      form: { casualtyId: '{otherVetsAnimal}', alive: 'alive', whereNow: 'in the wild' },
      answers: 'yes 404 404 404 403 403',
    },
  ],
  '(desk)/door cameIn': [
    { at: '/door/{hospital}', form: { centreId: '{hospital}', animalTyped: '' }, answers: RECORDS },
    { at: '/door/{ward}', form: { centreId: '{ward}', animalTyped: '' }, answers: 'yes 404 yes 404 403 403' },
  ],
  '(desk)/casualties undone': [{ at: CARD, form: { ...ANIMAL, keepingId: '{keeping}' }, answers: RECORDS }],
  '(desk)/casualties booked': [{ at: CARD, form: { ...ANIMAL, leavesAt: '' }, answers: RECORDS }],
  '(desk)/casualties givenBack': [{ at: CARD, form: { ...ANIMAL, holdId: '{hold}' }, answers: RECORDS }],
  '(desk)/releases releasePlanned': [
    {
      at: '/releases',
      form: { 'animals[]': '{animal}', site: 'Heskwith wood', way: 'hard', releaser: 'Somebody' },
      answers: RECORDS,
    },
  ],
  '(desk)/releases releaseRecorded': [
    {
      at: '/releases',
      form: {
        releaseId: '{release}',
        releaser: 'Somebody',
        'animals.0.casualtyId': '{animal}',
        'animals.0.went': 'no',
      },
      answers: RECORDS,
    },
  ],
  '(desk)/releases releaseCalledOff': [
    { at: '/releases', form: { releaseId: '{release}' }, answers: RECORDS },
  ],
  '(desk)/round cameHere': [
    {
      at: '/round/{hospital}',
      form: { casualtyId: '{animal}', centreId: '{hospital}' },
      answers: RECORDS,
    },
  ],
  '(desk)/round settled': [
    { at: '/round/{hospital}', form: { entryId: '999999' }, answers: '404 404 404 403 403 403' },
  ],
  '(desk)/round tapped': [
    {
      at: '/round/{hospital}',
      form: { key: 'door-of-hospital', centreId: '{hospital}', tap: 'counted' },
      answers: 'yes yes 404 403 403 403',
    },
    {
      at: '/round/{ward}',
      form: { key: 'door-of-ward', centreId: '{ward}', tap: 'counted' },
      answers: 'yes 404 yes 403 403 403',
    },
    {
      at: '/round/{hospital}',
      form: {
        key: 'door-of-animal',
        centreId: '{hospital}',
        casualtyId: '{animal}',
        tap: 'weight',
        grams: '80',
      },
      answers: 'yes yes 404 403 403 403',
    },
  ],
  '(desk)/setup/rules authoriseAction': [
    {
      at: '/setup/rules/licence.en-schedule-4-keeping',
      form: {
        id: 'licence.en-schedule-4-keeping',
        centreId: '{hospital}',
        licenceNo: 'Of the doors',
        validFrom: '2020-01-01',
      },
      answers: HOUSING,
    },
  ],
  '(desk)/setup/rules unauthoriseAction': [
    {
      at: '/setup/rules/licence.en-schedule-4-keeping',
      form: { id: 'licence.en-schedule-4-keeping', centreId: '999999' },
      answers: HOUSING,
    },
  ],
  '(desk)/setup/arrivals addArrivalsAction': [{ at: '/setup/arrivals/new', form: {}, answers: OF_YEAR }],
  '(desk)/setup/arrivals changeArrivalsAction': [
    { at: '/setup/arrivals/{arrivals}', form: { id: '{arrivals}' }, answers: OF_YEAR },
  ],
  '(desk)/setup/centres changeContactsAction': [
    { at: '/setup/centres/{hospital}', form: { id: '{hospital}', version: '0' }, answers: HOUSING },
  ],
  '(desk)/setup/closures planClosureAction': [{ at: '/setup/closures/new', form: {}, answers: OF_YEAR }],
  '(desk)/setup/closures liftClosureAction': [
    { at: '/setup/closures/{closure}', form: { id: '{closure}' }, answers: OF_YEAR },
  ],
  ...addsAndChanges('companies', 'Company', '{company}'),
  ...addsAndChanges('rules', 'Rule', 'handling.talons'),
  ...housing('species', 'Species', '{species}'),
  ...housing('seasons', 'Season', 'swift.migration', OF_YEAR),
  ...housing('conditions', 'Condition', '{condition}'),
  ...housing('places', 'Place', '{place}', OF_YEAR),
  '(desk)/setup/places importPlacesAction': [
    { at: '/setup/places/import', form: { csv: 'x' }, answers: OF_YEAR },
  ],
  '(desk)/setup/walk changeWalkAction': [
    { at: '/setup/walk/{hospital}', form: { id: '{hospital}' }, answers: HOUSING },
  ],
  '(desk)/setup/policy changeWeightsAction': [{ at: '/setup/policy', form: {}, answers: HOUSING }],
  ...housing('groups', 'Group', '{group}'),
  '(desk)/setup/stops planStopAction': [{ at: '/setup/stops/new', form: {}, answers: SITE_STATE }],
  '(desk)/setup/stops liftStopAction': [
    { at: '/setup/stops/{overStop}', form: { id: '{overStop}' }, answers: SITE_STATE },
  ],
  '(desk)/setup/policy changePolicyAction': [{ at: '/setup/policy', form: {}, answers: OF_YEAR }],
  ...housing('centres', 'Centre', '{hospital}'),
  ...housing('rooms', 'Room', '{room}'),
  ...housing('enclosures', 'Enclosure', '{enclosure}'),
  ...housing('practices', 'Practice', '{practice}'),
  ...housing('drivers', 'Driver', '{driver}', OF_YEAR),
  ...housing('people', 'Person', '{person}'),
  '(desk)/setup/people makeLinkAction': [
    { at: '/setup/people/{person}', form: { id: '{person}' }, answers: HOUSING },
  ],
  '(desk)/setup/people changePasswordAction': [
    { at: '/setup/people/{person}', form: { id: '{person}' }, answers: HOUSING },
  ],
  '(desk)/setup/plans addPlanAction': [{ at: '/setup/plans/new', form: {}, answers: HOUSING }],
  ...ofPlan('switchPlanAction', {}),
  ...ofPlan('saveStageAction', {}),
  ...ofPlan('removeStageAction', { was: 'critical care' }),
  ...ofPlan('saveGateAction', {}),
  ...ofPlan('removeGateAction', { gateId: '1' }),
  '(desk)/me changeMyPassword': [{ at: '/me', form: {}, answers: IN }],
  '(desk)/me chooseMyCode': [{ at: '/me', form: {}, answers: IN }],
  '(desk)/me shareThisTablet': [{ at: '/me', form: {}, answers: IN }],
  // Last, since it ends the sessions that the others are tried with.
  '(desk)/me signOutEverywhere': [{ at: '/me', form: {}, answers: IN }],
}

/** Without an hour nobody's turn changes: only the right is asked. */
function onTheLine(name: string): Readonly<Record<string, readonly ActionRow[]>> {
  return { [`(desk)/line ${name}`]: [{ at: '/line', form: {}, answers: 'yes 403 403 403 403 403' }] }
}

function revision(): Fields {
  const stage = { stageNo: '1', medianDays: '3', p90Days: '9', wasMedian: '2', wasP90: '9' }
  const named = Object.entries(stage).map(([name, value]) => [`stages.0.${name}`, value])
  return { because: 'slower than thought', ...Object.fromEntries(named) }
}

function ofPlan(name: string, fields: Fields): Readonly<Record<string, readonly ActionRow[]>> {
  const form = { id: '{plan}', ...fields }
  return { [`(desk)/setup/plans ${name}`]: [{ at: '/setup/plans/{plan}', form, answers: HOUSING }] }
}

/** The doors of groups and of moves set aside. Answers in the order of rows.ts. */
import type { ActionRow } from './rows.ts'

const ANIMAL = { casualtyId: '{animal}', reference: 'x' }
const CARD = '/casualties/{inHospital}'
const RECORDS = 'yes yes 404 404 403 403'

export const GROUP_ACTIONS: Readonly<Record<string, readonly ActionRow[]>> = {
  '(desk)/casualties oneOfBatchEnded': [
    { at: CARD, form: { ...ANIMAL, alive: 'dead', whereNow: 'died by itself' }, answers: RECORDS },
    {
      at: CARD,
      form: { casualtyId: '{otherVetsAnimal}', alive: 'dead', whereNow: 'died by itself' },
      answers: 'yes 404 404 404 403 403',
    },
  ],
  '(desk)/casualties someOfBatchMoved': [
    { at: CARD, form: { ...ANIMAL, count: '1', centreId: '{hospital}' }, answers: RECORDS },
  ],
  '(desk)/casualties joined': [
    { at: CARD, form: { ...ANIMAL, withId: '{otherVetsAnimal}' }, answers: RECORDS },
  ],
  '(desk)/casualties parted': [{ at: CARD, form: { ...ANIMAL, count: '1' }, answers: RECORDS }],
  '(desk)/casualties toldApart': [{ at: CARD, form: { ...ANIMAL, toldBy: 'A ring' }, answers: RECORDS }],
  '(desk)/casualties regroupingTakenBack': [
    { at: CARD, form: { ...ANIMAL, lineId: '{line}' }, answers: RECORDS },
  ],
}

const TO_WARD = { casualtyId: '{animal}', toCentreId: '{ward}' }
const ASKS = 'yes 403 403 403 403 403'

export const ASIDE_ACTIONS: Readonly<Record<string, readonly ActionRow[]>> = {
  '(desk)/moves setAside': [
    { at: '/moves', form: { ...TO_WARD, reason: 'settled here', words: '', untilOn: '' }, answers: ASKS },
  ],
  '(desk)/moves takenUp': [{ at: '/moves', form: { asideId: '{aside}' }, answers: ASKS }],
}

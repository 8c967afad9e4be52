/** The doors of groups: animals put together, parted, told apart. Answers in the order of rows.ts. */
import type { ActionRow } from './rows.ts'

const ANIMAL = { casualtyId: '{animal}', reference: 'x' }
const CARD = '/casualties/{inHospital}'
const RECORDS = 'yes yes 404 404 403 403'

export const GROUP_ACTIONS: Readonly<Record<string, readonly ActionRow[]>> = {
  '(desk)/casualties joined': [
    { at: CARD, form: { ...ANIMAL, withId: '{otherVetsAnimal}' }, answers: RECORDS },
  ],
  '(desk)/casualties parted': [{ at: CARD, form: { ...ANIMAL, count: '1' }, answers: RECORDS }],
  '(desk)/casualties toldApart': [{ at: CARD, form: { ...ANIMAL, toldBy: 'A ring' }, answers: RECORDS }],
  '(desk)/casualties regroupingTakenBack': [
    { at: CARD, form: { ...ANIMAL, lineId: '999999' }, answers: RECORDS },
  ],
}

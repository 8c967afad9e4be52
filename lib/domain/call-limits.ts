/**
 * How much a field of the call sheet holds.
 * Promise: nothing else, so that a form on a phone carries these numbers and not the reading of the sheet.
 */
export const ANIMAL_TYPED_MAX = 80
export const WHERE_TYPED_MAX = 200
export const WRONG_TYPED_MAX = 200
export const TOLD_MAX = 200
export const HAPPENED_SINCE_MAX = 500
export const NOTES_MAX = 2000
export const FINDER_NAME_MAX = 80
export const FINDER_PHONE_MAX = 40
export const COUNT_MAX = 500
export const CONDITIONS_MAX = 6

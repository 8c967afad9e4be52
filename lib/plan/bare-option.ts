/**
 * What every option has before it is filled in, and the two small facts that several share.
 * Promise: an option without a stay says so with empty lists and nulls, never with zeros that look like answers.
 */
import type { AskFirst, Destination, OptionKind, PlacementOption } from '#lib/domain/option.ts'
import { NO_SHORTAGE } from './added-shortage.ts'
import type { CentreNow } from './model.ts'

/** An option of this kind that sends the animals to `to` and, so far, costs nothing. */
export function bareOption(kind: OptionKind, to: Destination | null): PlacementOption {
  return {
    key: optionKey(kind, to === null ? [] : [to.id]),
    kind,
    orderRule: null,
    to,
    path: [],
    moves: [],
    ribbon: null,
    release: null,
    weakest: null,
    travel: null,
    countedDaysAgo: null,
    door: null,
    askFirst: null,
    placesTonight: [],
    shortTonight: 0,
    keep: null,
    isUnmetDemand: false,
    terms: [],
    total: 0,
    totalShown: 0,
    addedShortage: NO_SHORTAGE,
    comparison: null,
    isNearest: false,
  }
}

/** A key that is the same for the same kind and the same path of places, with repeats said once. */
export function optionKey(kind: string, ids: readonly string[]): string {
  return [kind.replaceAll(' ', '-'), ids.join('>')].filter(part => part !== '').join(':')
}

/** Whether, and with what figures, the centre has to be asked first: its standing offer covers fewer animals. */
export function askFirst({ offer, phone }: CentreNow, count: number): AskFirst | null {
  if (offer === null) return { phone, offered: null, left: 0, wanted: count }
  const left = Math.max(0, offer.left)
  return left >= count ? null : { phone, offered: offer.places, left, wanted: count }
}

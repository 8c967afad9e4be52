/**
 * Who is asked next: the next of a centre's contacts, then the next centre of the options as they were decided on.
 * Promise: nobody is rung twice for one ask and no centre is asked twice for one decision; with nobody left it says so.
 * Minutes of the wall clock, instants as Dates.
 */
import { type CentreContact, isReachable } from './centre-contact.ts'
import { type CentreDoor, doorAt, minuteOfDay } from './hours.ts'
import type { PlacementOption } from './option.ts'

/** Somebody to ring, and where mail reaches them. */
export type Answerer = { readonly name: string; readonly phone: string; readonly email: string | null }

/** Why the next one is asked: nobody answered in time, or the centre said no. */
export type WhyNext = 'silent' | 'no'

export type Chain = {
  /** Who of the centre that was asked may be rung now, in order. */
  readonly answerers: readonly Answerer[]
  /** Numbers rung already for this ask. */
  readonly rung: readonly string[]
  /** As they were ranked when the decision was taken. */
  readonly options: readonly PlacementOption[]
  readonly takenKey: string
  /** Centres that were asked already. */
  readonly asked: readonly number[]
  /** Centres that can't take the animals any more. */
  readonly barred: readonly number[]
}

export type Step =
  | { readonly kind: 'contact'; readonly answerer: Answerer }
  | { readonly kind: 'centre'; readonly option: PlacementOption; readonly centreId: number }
  | { readonly kind: 'nobody' }

/** What comes after silence or a no. */
export function nextStep(chain: Chain, why: WhyNext): Step {
  const answerer =
    why === 'silent' ? chain.answerers.find(({ phone }) => !chain.rung.includes(phone)) : undefined
  if (answerer !== undefined) return { kind: 'contact', answerer }
  for (const option of inTurn(chain)) {
    const centreId = Number(option.to?.id)
    if (!chain.asked.includes(centreId) && !chain.barred.includes(centreId)) {
      return { kind: 'centre', option, centreId }
    }
  }
  return { kind: 'nobody' }
}

/** Those ranked after the one that was taken, then those before it, which somebody passed over. */
function inTurn({ options, takenKey }: Chain): PlacementOption[] {
  const taken = options.findIndex(({ key }) => key === takenKey)
  return [...options.slice(taken + 1), ...options.slice(0, Math.max(0, taken))].filter(canBeAsked)
}

/** Whether an option is one that a centre can be asked for by itself. */
export function canBeAsked({ kind, to }: Pick<PlacementOption, 'kind' | 'to'>): boolean {
  return (kind === 'admit' || kind === 'admit and move') && to?.kind === 'centre'
}

type AskedCentre = CentreDoor & { readonly name: string; readonly phone: string }

/** Who answers for a centre now: its contacts by their hours, else who opens at night, else its own number. */
export function answerersOf(
  centre: AskedCentre,
  contacts: readonly CentreContact[],
  at: Date,
  zone: string,
): [Answerer, ...Answerer[]] {
  const minute = minuteOfDay(at, zone)
  const [first, ...more] = contacts
    .filter(contact => isReachable(contact, minute))
    .map(({ name, phone, email }) => ({ name, phone, email }))
  if (first !== undefined) return [first, ...more]
  const door = doorAt(centre, at, zone)
  return door.kind === 'on-call'
    ? [{ name: door.name, phone: door.phone, email: null }]
    : [{ name: centre.name, phone: centre.phone, email: null }]
}

/** How an ask is shown: `held` while nobody looked at it, `seen` once the link was opened. */
export type AskShown = 'held' | 'seen' | 'agreed' | 'refused' | 'silent' | 'taken back'

const SHOWN = {
  written: 'held',
  put: 'held',
  yes: 'agreed',
  no: 'refused',
  unanswered: 'silent',
  'taken-back': 'taken back',
} as const

export type AskState = keyof typeof SHOWN
export const ASK_STATES = Object.keys(SHOWN) as [AskState, ...AskState[]]

export function askShown(state: AskState, seenAt: Date | null): AskShown {
  return state === 'put' && seenAt !== null ? 'seen' : SHOWN[state]
}

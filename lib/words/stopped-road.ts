/**
 * Drives that a movement stop stands against, in words: what is stopped, whom to ring, who decides.
 * Promise: nothing is decided here; the driver and the authority stand with their numbers.
 */

type Stopped = {
  readonly references: readonly string[]
  readonly species: string
  readonly centre: string
  readonly leads: 'in' | 'out'
  readonly isOnTheRoad: boolean
  readonly authority: string
  readonly authorityPhone: string
}

/** "A movement stop stands against this drive: Rush 12, Mallard, to Averbrook". */
export function stoppedSentence({ references, species, centre, leads }: Stopped): string {
  const [first = '', ...others] = references
  const who = others.length === 0 ? first : `${first} and ${others.length} more`
  return `A movement stop stands against a drive: ${who}, ${species}, ${leads === 'in' ? 'to' : 'from'} ${centre}`
}

/** "Ring Perrin Oakshade, 0303, before ...; Office, 2, decides". */
export function stoppedTodo(
  stopped: Stopped & { readonly by: string | null; readonly phone: string | null },
): string {
  const { by, phone, isOnTheRoad, authority, authorityPhone } = stopped
  const driver = by === null ? 'the finder, who drives' : `${by}${phone === null ? '' : `, ${phone}`}`
  const when = isOnTheRoad ? 'On the road now: ring' : 'Nobody sets off: ring'
  return `${when} ${driver}. ${authority}, ${authorityPhone}, decides whether the animals may move`
}

export const STOPPED = {
  kept: 'The journey, its keeper and the animals’ records stay as they are until a person says otherwise.',
} as const

/** "Stopped from Tue 10 Jun, 14:00: suspicion". */
export function stoppedSince(reason: string, when: string): string {
  return `Stopped from ${when}: ${reason}.`
}

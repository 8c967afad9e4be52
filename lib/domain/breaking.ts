/**
 * What a change of setup would break: stays and promises that stand now and would not afterwards.
 * Promise: the fingerprint names exactly what was shown, so a confirmation never covers more than somebody read.
 */

/** A stay or a kept place that stands at an instant. */
export type Standing = {
  readonly kind: 'stay' | 'hold'
  readonly casualtyId: number
  readonly reference: string
  readonly enclosureId: number
  readonly enclosure: string
}

/** `ill-housed`: stays in its place, which is no longer of the kind it was put in. */
export type Broken = Omit<Standing, 'kind'> & {
  readonly kind: Standing['kind'] | 'ill-housed' | 'not taken' | 'housed otherwise' | 'kept otherwise'
}

/** Those that stood before and do not stand after, in the order given; another number in one enclosure is the same. */
export function brokenBy(before: readonly Standing[], after: readonly Standing[]): Standing[] {
  const kept = new Set(after.map(keyOf))
  return before.filter(one => !kept.has(keyOf(one)))
}

/** Each once: who loses a place is not also said to be in the wrong kind of housing. */
export function joined(lost: readonly Standing[], also: readonly Broken[]): Broken[] {
  const named = new Set(lost.map(one => `${one.kind === 'hold'}.${one.casualtyId}`))
  return [...lost, ...also.filter(one => !named.has(`${one.kind === 'hold'}.${one.casualtyId}`))]
}

/** What somebody confirms, as one word for a form's field. */
export function fingerprintOf(broken: readonly Broken[]): string {
  return broken
    .map(one => `${one.kind.replace(' ', '-')}.${one.casualtyId}.${one.enclosureId}`)
    .sort()
    .join('_')
}

function keyOf({ kind, casualtyId, enclosureId }: Standing): string {
  return `${kind}.${casualtyId}.${enclosureId}`
}

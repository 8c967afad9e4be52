/**
 * Where, in words: how a place was read, how far it is, who opens the door.
 * Promise: clock times come in as text of the network's zone; guesses are said to be "about".
 */
import type { Whereabouts } from '#lib/domain/place.ts'

/** How what was typed has been read. */
export function whereWords(where: Whereabouts): string {
  const at = `${degrees(where.latitude, 'N', 'S')}, ${degrees(where.longitude, 'E', 'W')}`
  switch (where.how) {
    case 'gazetteer':
      return where.name
    case 'plus code':
      return `Plus code, ${at}`
    case 'coordinates':
      return at
  }
}

/** "about 31 km, 37 min". */
export function roadWords(road: { readonly km: number; readonly minutes: number }): string {
  return `about ${Math.round(road.km)} km, ${durationWords(road.minutes)}`
}

/** "37 min", "1 h 5 min". */
export function durationWords(minutes: number): string {
  const whole = Math.round(minutes)
  const hours = Math.floor(whole / 60)
  if (hours === 0) return `${whole} min`
  return whole % 60 === 0 ? `${hours} h` : `${hours} h ${whole % 60} min`
}

export type SpokenDoor =
  | { readonly kind: 'open'; readonly until: string | null }
  | { readonly kind: 'staffed' }
  | { readonly kind: 'on-call'; readonly name: string; readonly phone: string }
  | { readonly kind: 'shut'; readonly opens: string | null }

/** Who opens now, as the end of a sentence. */
export function doorWords(door: SpokenDoor): string {
  switch (door.kind) {
    case 'open':
      return door.until === null ? 'open round the clock' : `open until ${door.until}`
    case 'staffed':
      return 'somebody is there all night, ring the bell'
    case 'on-call':
      return `${door.name} opens, ring ${door.phone} first`
    case 'shut':
      return door.opens === null ? 'shut, no hours given' : `shut until ${door.opens}`
  }
}

function degrees(value: number, positive: string, negative: string): string {
  return `${Math.abs(value).toFixed(4)}° ${value < 0 ? negative : positive}`
}

/**
 * Every address of the program, built in one place.
 * Promise: parts are encoded, blank query values left out, and what comes back is a known route.
 */
import type { Route } from 'next'
import type { ImageSize } from '#lib/domain/attachment.ts'

type Query = Readonly<Record<string, string | number | readonly string[] | undefined>>

export const paths = {
  front: () => '/' as Route,
  signIn: (returnTo?: string, refused?: string) => at('/sign-in', { to: returnTo, refused }),
  signInProvider: (returnTo?: string) => at('/sign-in/provider', { to: returnTo }),

  forgot: (query?: Query) => at('/sign-in/forgot', query),
  passwordLink: (token: string) => at(`/password/${part(token)}`),
  me: (query?: Query) => at('/me', query),

  calls: (query?: Query) => at('/calls', query),
  newCall: (query?: Query) => at('/calls/new', query),
  call: (callId: number, query?: Query) => at(`/calls/${part(callId)}`, query),
  events: (about?: string) => at('/api/events', { about }),
  door: (centreId?: number, query?: Query) =>
    at(centreId === undefined ? '/door' : `/door/${part(centreId)}`, query),

  ask: (askId: number, query?: Query) => at(`/asks/${part(askId)}`, query),
  answer: (token: string) => at(`/answer/${part(token)}`),
  drive: (token: string) => at(`/drive/${part(token)}`),
  moves: (query?: Query) => at('/moves', query),
  planMove: (reference: string, query?: Query) => at('/moves/new', { animal: reference, ...query }),
  journey: (journeyId: number, query?: Query) => at(`/moves/${part(journeyId)}`, query),
  line: () => '/line' as Route,
  due: () => '/due' as Route,

  casualties: (query?: Query) => at('/casualties', query),
  casualty: (reference: string, query?: Query) => at(`/casualties/${part(reference)}`, query),
  releases: (query?: Query) => at('/releases', query),
  casualtiesCsv: (query?: Query) => at('/api/casualties', query),

  picture: (attachmentId: number, size: ImageSize) => at(`/api/pictures/${part(attachmentId)}/${part(size)}`),
  pictureByLink: (token: string, attachmentId: number, size: ImageSize) =>
    at(`/api/answers/${part(token)}/pictures/${part(attachmentId)}/${part(size)}`),

  round: (centreId?: number, query?: Query) =>
    at(centreId === undefined ? '/round' : `/round/${part(centreId)}`, query),

  roundCards: (centreId: number, query?: Query) => at(`/round/${part(centreId)}/cards`, query),
  roundSheet: (centreId: number) => at(`/round/${part(centreId)}/sheet`),

  weeks: (query?: Query) => at('/weeks', query),
  weeksOfCentre: (centreId: number, query?: Query) => at(`/weeks/${part(centreId)}`, query),
  weeksCsv: (query?: Query) => at('/api/weeks', query),

  records: (query?: Query) => at('/records', query),
  cameTrue: (query?: Query) => at('/records/came-true', query),
  recordsOf: (key: string) => at(`/records/${part(key)}`),

  setup: () => '/setup' as Route,
  setupList: (noun: SetupNoun, query?: Query) => at(`/setup/${noun}`, query),
  setupNew: (noun: SetupNoun, query?: Query) => at(`/setup/${noun}/new`, query),
  setupImport: () => '/setup/places/import' as Route,
  gazetteerCsv: () => '/api/gazetteer' as Route,
  setupWalk: (centreId: number, query?: Query) => at(`/setup/walk/${part(centreId)}`, query),
  setupItem: (noun: SetupNoun, id: string | number, query?: Query) => at(`/setup/${noun}/${part(id)}`, query),
} as const

export type SetupNoun =
  | 'centres'
  | 'rooms'
  | 'enclosures'
  | 'closures'
  | 'stops'
  | 'companies'
  | 'groups'
  | 'species'
  | 'rules'
  | 'seasons'
  | 'conditions'
  | 'places'
  | 'practices'
  | 'drivers'
  | 'arrivals'
  | 'plans'
  | 'policy'
  | 'people'

/** An address to go back to after signing in: only one of ours, never another site's. */
export function safeReturn(to: unknown): Route {
  const isOurs = typeof to === 'string' && /^\/(?![/\\])/.test(to) && !/[\\\s]/.test(to)
  return (isOurs ? to : paths.front()) as Route
}

function part(text: string | number): string {
  return encodeURIComponent(text)
}

function at(path: string, query: Query = {}): Route {
  const search = new URLSearchParams()
  for (const [name, value] of Object.entries(query)) {
    for (const one of typeof value === 'object' ? value : [value]) {
      if (one !== undefined && one !== '') search.append(name, String(one))
    }
  }
  const asked = search.toString()
  return (asked === '' ? path : `${path}?${asked}`) as Route
}

/**
 * Where the facts of a batch leave everybody: whereabouts and claims, as the database would work them out itself.
 * The generated history never asks for a place that is taken or wet, so each stay has its place for its whole length
 * and every departure is followed by its drying, uncut.
 */
import type { Row } from '../load/bulk.ts'
import { type Enclosure, listEnclosures } from '../scenario/site.ts'
import type { Casualty } from './types.ts'

export type FactRow = {
  readonly entry_id: number | undefined
  readonly casualty_id: number
  readonly since: string
  readonly keeper: string
  readonly driver_id: number | null
  readonly centre_id: number | null
  readonly enclosure_id: number | null
  readonly place_no: number | null
  readonly outcome: string | null
}

export type Projection = {
  readonly keepings: readonly Row[]
  readonly whereabouts: readonly Row[]
  readonly claims: readonly Row[]
}

type Span = FactRow & { readonly id: number; readonly until: string | null }

const MS_PER_MINUTE = 60_000

/** The projection of facts given in the order of their entries; keepings are numbered from 1 in that order. */
export function projectFacts(facts: readonly FactRow[], casualties: readonly Casualty[]): Projection {
  const enclosures = new Map(listEnclosures().map(one => [one.id, one]))
  const animals = new Map(casualties.map(one => [one.id, one]))
  const spans = spansOf(facts)
  const stays = spans.flatMap(span => {
    const enclosure = enclosures.get(span.enclosure_id ?? 0)
    const casualty = animals.get(span.casualty_id)
    return enclosure === undefined || casualty === undefined ? [] : [{ span, enclosure, casualty }]
  })
  return {
    keepings: spans.map(({ until: _until, ...row }) => row),
    whereabouts: spans
      .filter(({ since, until }) => until === null || until > since)
      .map(({ id, casualty_id, keeper, centre_id, enclosure_id, since, until }) => ({
        keeping_id: id,
        first_id: id,
        casualty_id,
        keeper,
        centre_id,
        enclosure_id,
        since,
        until,
      })),
    claims: [...stays.map(stayClaim), ...dryingClaims(stays)],
  }
}

function spansOf(facts: readonly FactRow[]): Span[] {
  const ofCasualty = new Map<number, number[]>()
  facts.forEach((fact, at) => {
    const list = ofCasualty.get(fact.casualty_id)
    if (list === undefined) ofCasualty.set(fact.casualty_id, [at])
    else list.push(at)
  })
  const until = new Map<number, string>()
  for (const list of ofCasualty.values()) {
    const sorted = list.toSorted((a, b) => ((facts[a]?.since ?? '') < (facts[b]?.since ?? '') ? -1 : 1))
    sorted.forEach((at, nth) => {
      const next = facts[sorted[nth + 1] ?? -1]
      if (next !== undefined) until.set(at, next.since)
    })
  }
  return facts.map((fact, at) => ({ ...fact, id: at + 1, until: until.get(at) ?? null }))
}

type Stay = { readonly span: Span; readonly enclosure: Enclosure; readonly casualty: Casualty }

function keyOf({ enclosure, casualty: { id, arrival, animal } }: Stay): string {
  if (animal.isAlone) return `alone:${id}`
  return enclosure.housing_type === 'isolation' ? `arrival:${arrival.id}:${animal.company}` : animal.company
}

function stayClaim(stay: Stay): Row {
  const { span, casualty } = stay
  return {
    kind: 'stay',
    casualty_id: span.casualty_id,
    keeping_id: span.id,
    company_slug: casualty.animal.company,
    ...claimOf(stay, span.place_no, span.since, span.until),
  }
}

function claimOf(stay: Stay, placeNo: number | null, starts: string, ends: string | null): Row {
  return {
    state: 'live',
    enclosure_id: stay.enclosure.id,
    place_no: placeNo,
    company_key: keyOf(stay),
    needs_isolation: false,
    housing_type: '',
    starts_at: starts,
    ends_at: ends,
  }
}

function dryingClaims(stays: readonly Stay[]): Row[] {
  const drying = new Map<string, Row>()
  for (const stay of stays) {
    const { enclosure, span } = stay
    if (span.until === null || enclosure.turnaround_min === 0) continue
    const place = enclosure.dries_after === 'each' ? span.place_no : null
    const ends = new Date(Date.parse(span.until) + enclosure.turnaround_min * MS_PER_MINUTE).toISOString()
    drying.set(`${enclosure.id}|${place}|${keyOf(stay)}|${span.until}`, {
      kind: 'drying',
      casualty_id: null,
      keeping_id: null,
      company_slug: null,
      ...claimOf(stay, place, span.until, ends),
    })
  }
  return [...drying.values()]
}

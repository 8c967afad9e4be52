/**
 * A random walk through everything that can be recorded and planned: facts (a quarter of them late), corrections,
 * undone entries, deaths, holds, departures, closures, cleaning, identifications.
 */
import type pg from 'pg'
import { type Correction, type Fact, hold, hours, inTestEntry, record } from './heart.ts'

export type Walk = {
  readonly at: Date
  readonly facts: number
  /** Facts that were refused: there must be none. */
  readonly refusedFacts: readonly string[]
  readonly refusedPlans: Readonly<Record<string, number>>
  /** Plans that failed without naming a rule. */
  readonly surprises: readonly string[]
}

const ANIMALS = 40
const ENCLOSURES = 8

export async function walk(
  client: pg.ClientBase,
  random: () => number,
  steps: number,
  from: Date,
): Promise<Walk> {
  const told: { id: number; casualty: number }[] = []
  const refusedFacts: string[] = []
  const surprises: string[] = []
  const refusedPlans: Record<string, number> = {}
  let at = from
  let facts = 0
  for (let step = 0; step < steps; step++) {
    at = hours(random() * 6, at)
    if (random() < 0.75) {
      const fact = drawFact(random, at, told)
      try {
        told.push({ id: await record(client, fact, at), casualty: fact.casualty_id })
        facts++
      } catch (thrown) {
        refusedFacts.push(`step ${step}: ${(thrown as Error).message}`)
      }
      continue
    }
    try {
      await plan(client, random, at)
    } catch (thrown) {
      const message = (thrown as Error).message
      const name = /constraint "([a-z0-9_]+)"/.exec(message)?.[1]
      if (name === undefined) surprises.push(`step ${step}: ${message}`)
      else refusedPlans[name] = (refusedPlans[name] ?? 0) + 1
    }
  }
  return { at, facts, refusedFacts, refusedPlans, surprises }
}

function drawFact(
  random: () => number,
  at: Date,
  told: readonly { readonly id: number; readonly casualty: number }[],
): Fact | Correction {
  const whole = (n: number) => 1 + Math.floor(random() * n)
  const casualty_id = whole(ANIMALS)
  const since = random() < 0.75 ? hours(-random() * 0.5, at) : hours(-random() * 100, at)
  const kind = random()
  const earlier = told[Math.floor(random() * told.length)]
  if (kind < 0.12 && earlier !== undefined) {
    const about = { casualty_id: earlier.casualty, supersedes: earlier.id }
    if (random() < 0.5) return { ...about, is_void: true }
    return { ...about, since, keeper: 'centre', enclosure_id: whole(ENCLOSURES) }
  }
  if (kind < 0.26)
    return { casualty_id, since, keeper: 'nobody', outcome: random() < 0.5 ? 'died' : 'released' }
  if (kind < 0.32) return { casualty_id, since, keeper: 'driver', driver_id: 1 }
  if (kind < 0.36) return { casualty_id, since, keeper: 'centre', centre_id: 1 }
  return {
    casualty_id,
    since,
    keeper: 'centre',
    enclosure_id: whole(ENCLOSURES),
    ...(random() < 0.3 && { place_no: whole(3) }),
    ...(random() < 0.1 && { override_reason: 'seen to get on' }),
  }
}

async function plan(client: pg.ClientBase, random: () => number, at: Date): Promise<void> {
  const whole = (n: number) => 1 + Math.floor(random() * n)
  const kind = random()
  const casualty = whole(ANIMALS)
  const enclosure = whole(ENCLOSURES)
  const call = (text: string, values: unknown[]) =>
    inTestEntry(client, at, entry => client.query(text, [entry, ...values]))
  if (kind < 0.45) {
    await hold(
      client,
      {
        casualty,
        enclosure,
        starts: hours(random() * 30, at),
        ...(random() < 0.7 && { ends: hours(40 + random() * 60, at) }),
        expected: hours(31, at),
        expires: hours(10 + random() * 40, at),
      },
      at,
    )
  } else if (kind < 0.7) {
    await call('select book_departure($1, $2, $3, $4)', [casualty, hours(random() * 30, at), at])
  } else if (kind < 0.8) {
    const ends = random() < 0.6 ? hours(20 + random() * 30, at) : null
    await call(`select close_enclosure($1, $2, $3, $4, 'storm', $5)`, [
      enclosure,
      hours(random() * 20 - 10, at),
      ends,
      at,
    ])
  } else if (kind < 0.9) {
    await client.query(
      'select lift_closure(id, $1) from closure where lifted_at is null order by id limit 1',
      [at],
    )
  } else if (kind < 0.95) {
    await call('select cleaned_now($1, $2, $3)', [enclosure, at])
  } else {
    const species = ['blackbird', 'sparrow', 'kestrel'][whole(3) - 1]
    await call(`select identify($1, $2, $3, 'adult', false, null, $4)`, [casualty, species, at])
  }
}

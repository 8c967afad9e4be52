/**
 * Replications of a world: every animal lives its own way, enclosures wanted are counted at each midnight.
 * One replication costs a draw for each stage lived and a pass over the days of each company.
 */
import { type AliasTable, alias, type Draw, normals, poisson, xoshiro } from './random.ts'
import { honestDraw, type StageDraw, stageTable } from './stage-draw.ts'
import type { Estimate, Stage, World } from './world.ts'

/** Histograms over all replications: `wanted[c][d * width + k]`, c running over the steps of all pools. */
export type Tally = {
  readonly replications: number
  readonly width: number
  readonly wanted: readonly Int32Array[]
  /** By pool and day: replications short, and enclosures short summed. */
  readonly short: readonly Int32Array[]
  readonly shortSum: readonly Int32Array[]
}

type Step = {
  readonly draw: StageDraw
  /** The table to draw from instead, with 4 times the days so far to add; empty where there is none. */
  readonly keep: Float64Array
  readonly other: Int32Array
  readonly base: number
  /** Index of the company's row of counts; -1 where nothing is counted. */
  readonly row: number
  readonly pool: number
  readonly cleaning: number
  readonly ownStock: number
  readonly kind: number
}
/** `own`: the row that only this way's animals use at a time, -1 without isolation. */
type Way = {
  readonly steps: readonly Step[]
  readonly enters: number
  readonly count: number
  readonly own: number
}

/** Simulates `replications` futures. `fast` draws from tables; the same model either way. */
export function simulate(world: World, replications: number, seed: number, fast = false, width = 128): Tally {
  const draw = xoshiro(seed)
  const plan = compile(world, draw, fast)
  const days = world.horizonDays
  const { rows, kinds } = plan
  const change = rows.map(() => new Int32Array(days + 1))
  const now = kinds.map(() => new Int32Array(days + 1))
  const tally: Tally = {
    replications,
    width,
    wanted: kinds.map(() => new Int32Array(days * width)),
    short: world.pools.map(() => new Int32Array(days)),
    shortSum: world.pools.map(() => new Int32Array(days)),
  }
  for (let r = 0; r < replications; r++) {
    for (const way of plan.residents) live(way, way.enters, way.count, world, draw, change, now)
    for (const { way, events, day, brood } of plan.streams) {
      for (let left = events(); left > 0; left--) live(way, day(), brood() + 1, world, draw, change, now)
    }
    for (let row = 0; row < rows.length; row++) {
      const { kind, stock } = rows[row]!
      const counts = change[row]!
      const total = now[kind]!
      let there = 0
      for (let d = 0; d < days; d++) {
        there += counts[d]!
        total[d] = total[d]! + (stock === 1 ? there : Math.ceil(there / stock))
      }
      counts.fill(0)
    }
    count(world, now, tally)
  }
  return tally
}

/** Lives `count` animals that enter their first step on `enters` and writes where they are counted. */
function live(
  way: Way,
  enters: number,
  count: number,
  world: World,
  draw: Draw,
  change: Int32Array[],
  now: Int32Array[],
): void {
  const days = world.horizonDays
  const { steps } = way
  for (let animal = 0; animal < count; animal++) {
    let day = enters
    for (let s = 0; s < steps.length && day < days; s++) {
      const step = steps[s]!
      const boxes = step.keep.length
      let found: number
      if (boxes > 0) {
        const x = draw() * boxes
        const i = x | 0
        found = step.base + (x - i < step.keep[i]! ? i : step.other[i]!)
      } else found = step.draw(world.today + day)
      const goes = (found & 3) === 0
      const until = day + (found >> 2)
      if (step.kind >= 0) {
        const isSame = goes && s + 1 < steps.length && steps[s + 1]!.pool === step.pool
        const from = Math.max(0, day)
        const to = Math.min(days, until + (isSame ? 0 : step.cleaning))
        if (to > from) {
          const counts = change[step.row]!
          counts[from] = counts[from]! + 1
          counts[to] = counts[to]! - 1
        }
      }
      if (!goes) break
      day = until
    }
  }
  if (way.own >= 0) shareOut(change[way.own]!, steps.find(step => step.row === way.own)!, now)
}

/** An arrival in isolation shares with itself alone: its enclosures are counted and its row is cleared for the next. */
function shareOut(counts: Int32Array, { kind, ownStock }: Step, now: Int32Array[]): void {
  const total = now[kind]!
  let there = 0
  for (let d = 0; d < counts.length; d++) {
    there += counts[d]!
    counts[d] = 0
    if (there > 0) total[d] = total[d]! + Math.ceil(there / ownStock)
  }
}

function count(world: World, now: Int32Array[], tally: Tally): void {
  let kind = 0
  world.pools.forEach((pool, p) => {
    const first = kind
    for (let d = 0; d < world.horizonDays; d++) {
      let overflow = 0
      for (let u = 0; u < pool.steps.length; u++) {
        const wanted = now[first + u]![d]!
        const histogram = tally.wanted[first + u]!
        const cell = d * tally.width + Math.min(wanted, tally.width - 1)
        histogram[cell] = histogram[cell]! + 1
        overflow = Math.max(0, overflow + wanted - pool.steps[u]!.capacityByDay[d]!)
        now[first + u]![d] = 0
      }
      if (overflow > 0) {
        tally.short[p]![d] = tally.short[p]![d]! + 1
        tally.shortSum[p]![d] = tally.shortSum[p]![d]! + overflow
      }
    }
    kind += pool.steps.length
  })
}

const NO_BOXES = new Float64Array(0)
const NO_OTHERS = new Int32Array(0)

function compile(world: World, draw: Draw, fast: boolean) {
  const normal = normals(draw)
  const rows: { kind: number; stock: number }[] = []
  const rowOf = new Map<string, number>()
  const kinds: string[] = []
  const poolIndex = new Map(world.pools.map((pool, p) => [pool.id, p]))
  const firstKind = world.pools.map(pool => {
    const first = kinds.length
    for (const step of pool.steps) kinds.push(`${pool.id} ${step.size}`)
    return first
  })
  // A way can start days before today, and what lies in a table's last box must end beyond the horizon.
  const unseen = world.itineraries.reduce((most, one) => Math.max(most, one.unseenDays), 0)
  const tableDays = world.horizonDays + unseen + 1
  const fresh = new Map<Estimate, StageDraw>()
  const tables = new Map<Estimate, AliasTable | undefined>()
  const drawOf = (estimate: Estimate, age: number): Pick<Step, 'draw' | 'keep' | 'other' | 'base'> => {
    const honest = (age === 0 && fresh.get(estimate)) || honestDraw(estimate, age, draw, normal)
    if (age === 0) fresh.set(estimate, honest)
    const isKept = age === 0 && tables.has(estimate)
    const table = !fast ? undefined : isKept ? tables.get(estimate) : stageTable(estimate, age, tableDays)
    if (age === 0) tables.set(estimate, table)
    return { draw: honest, keep: table?.keep ?? NO_BOXES, other: table?.other ?? NO_OTHERS, base: 4 * age }
  }
  const stepOf = (stage: Stage, age: number, index: number, all: readonly Stage[], animals: number): Step => {
    const none = {
      ...drawOf(stage.estimate, age),
      row: -1,
      pool: -1 - index,
      cleaning: 0,
      ownStock: 0,
      kind: -1,
    }
    if (stage.poolId === null) return none
    const p = poolIndex.get(stage.poolId)!
    const pool = world.pools[p]!
    // An animal has one size and one company in a pool: those of its largest need there, stage after stage.
    const widest = all
      .filter(other => other.poolId === stage.poolId)
      .reduce((a, b) => (b.need.size > a.need.size ? b : a))
    const fits = pool.steps.findIndex(step => step.size >= widest.need.size)
    const kind = firstKind[p]! + (fits < 0 ? pool.steps.length - 1 : fits)
    const { company, stock } = widest.need
    const base = { ...none, pool: p, cleaning: pool.turnaroundDays, kind }
    const isOwn = company.startsWith('arrival:') && animals > 1
    const isAlone =
      stock === 1 || company.startsWith('alone:') || (company.startsWith('arrival:') && animals === 1)
    const key = isOwn ? `own ${kind} ${stock}` : isAlone ? `${kind}` : `${kind} ${company} ${stock}`
    const row = rowOf.get(key) ?? rows.push({ kind, stock: isAlone ? 1 : stock }) - 1
    rowOf.set(key, row)
    return { ...base, row, ownStock: isOwn ? stock : 0 }
  }
  const wayOf = (stages: readonly Stage[], age: number, enters: number, animals: number): Way => {
    const steps = stages.map((stage, i) => stepOf(stage, i === 0 ? age : 0, i, stages, animals))
    return { enters, count: animals, steps, own: steps.find(step => step.ownStock > 0)?.row ?? -1 }
  }
  const residents = world.itineraries.map(one => {
    const soFar = world.today - one.enteredStageOn
    if (one.isReady) return wayOf(one.stages.slice(one.firstStage + 1), 0, 0, one.count)
    const age = Math.max(0, soFar - Math.min(one.unseenDays, Math.max(0, soFar)))
    return wayOf(one.stages.slice(one.firstStage), age, -soFar, one.count)
  })
  const streams = world.arrivals.map(({ stages, eventsPerDay, broodSizePmf }) => {
    const perDay = eventsPerDay.subarray(0, world.horizonDays)
    return {
      way: wayOf(stages, 0, 0, broodSizePmf.length),
      events: poisson(
        perDay.reduce((sum, rate) => sum + rate, 0),
        draw,
      ),
      day: alias(perDay, draw),
      brood: broodSizePmf.length === 1 ? () => 0 : alias(broodSizePmf, draw),
    }
  })
  return { rows, kinds, residents, streams }
}

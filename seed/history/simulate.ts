/**
 * Two years of the invented coast, lived through instant by instant up to now.
 * Promise: the same now gives the same history; nobody is in two places, no enclosure takes whom it may not take; an
 * animal that is ready waits where it is until a place for its next stage is free, and that is recorded apart.
 */
import type { CombinedStage } from '#lib/domain/care-plan-combination.ts'
import { type DayNumber, dayOfInstant, startOfDay } from '#lib/domain/day.ts'
import type { PlaceNeed } from '#lib/domain/need.ts'
import type { Trade } from '#lib/domain/trade.ts'
import type { Random } from '#lib/kernel/random.ts'
import { seededRandom } from '#lib/numerics/random.ts'
import { CENTRES } from '../scenario/centres.ts'
import { DRIVERS } from '../scenario/outside.ts'
import { type Coming, drawDay } from './arrivals.ts'
import { drawFate } from './fate.ts'
import { Queue } from './queue.ts'
import { centresByDistance, minutesBetween } from './road.ts'
import { Site, type Spot } from './site.ts'
import type { Casualty, Change, Outcome } from './types.ts'

export type HistoryPlan = {
  readonly trade: Trade
  readonly now: Date
  readonly zone: string
  readonly days: number
  readonly seed: number
  /** From this instant no bird goes into or out of this centre. */
  readonly birdStop: { readonly centreId: number; readonly since: number }
}

type Resident = {
  readonly casualty: Casualty
  /** From 1. */
  stageNo: number
  spot: Spot | undefined
  centreId: number
  /** Ready for the next stage since then, or without a proper place since then. */
  waitingSince: number | undefined
  isReady: boolean
}

type Event =
  | { readonly kind: 'comes'; readonly coming: Coming }
  | {
      readonly kind: 'ends'
      readonly resident: Resident
      readonly exit: 'onward' | 'died' | 'euthanased' | 'left'
    }
  | { readonly kind: 'round' }
  | { readonly kind: 'goes free'; readonly resident: Resident }
  | { readonly kind: 'moves'; readonly resident: Resident }

const MS_PER_MINUTE = 60_000
const MS_PER_HOUR = 60 * MS_PER_MINUTE
const MS_PER_DAY = 24 * MS_PER_HOUR
const ROUND_HOUR = 10
const DEAD_ON_ARRIVAL = 0.02
/** A centre waits so long for a place of its own before it asks another. */
const PATIENCE_MS = 3 * MS_PER_DAY

/** All casualties that came in the years before now, with everything that happened to them by now. */
export function simulateHistory(plan: HistoryPlan): Casualty[] {
  return new History(plan).run()
}

class History {
  readonly #plan: HistoryPlan
  readonly #random: Random
  readonly #site: Site
  readonly #queue = new Queue<Event>()
  readonly #casualties: Casualty[] = []
  readonly #waiting = new Set<Resident>()
  #batches = 0

  constructor(plan: HistoryPlan) {
    this.#plan = plan
    this.#random = seededRandom(plan.seed)
    this.#site = new Site(plan.trade)
  }

  run(): Casualty[] {
    const { now, zone, days } = this.#plan
    const today = dayOfInstant(now, zone)
    let arrivals = 1
    for (let day = today - days; day <= today; day++) {
      arrivals += this.#plant(day, arrivals)
      const end = Math.min(now.getTime(), startOfDay(day + 1, zone).getTime())
      for (let event = this.#queue.next(end); event !== undefined; event = this.#queue.next(end)) {
        this.#happen(event.at, event.item)
      }
    }
    // Whoever is on the road now has not arrived.
    return this.#casualties.map(one => ({
      ...one,
      changes: one.changes.filter(change => change.at <= now.getTime()),
      marks: one.marks.filter(mark => mark.at <= now.getTime()),
    }))
  }

  #plant(day: DayNumber, firstId: number): number {
    const { trade, zone } = this.#plan
    const comings = drawDay(this.#random, trade, day, zone, firstId)
    for (const coming of comings) this.#queue.add(coming.arrival.at, { kind: 'comes', coming })
    this.#queue.add(startOfDay(day, zone).getTime() + ROUND_HOUR * MS_PER_HOUR, { kind: 'round' })
    return comings.length
  }

  #happen(at: number, event: Event): void {
    if (event.kind === 'comes') this.#receive(event.coming)
    else if (event.kind === 'round') this.#round(at)
    else {
      // What would be seen on the road is seen on arrival.
      const since = event.resident.casualty.changes.at(-1)?.at ?? at
      if (since >= at) this.#queue.add(since + 15 * MS_PER_MINUTE, event)
      else this.#happenTo(event.resident, at, event)
    }
  }

  #happenTo(resident: Resident, at: number, event: Exclude<Event, { kind: 'comes' | 'round' }>): void {
    if (event.kind === 'moves') this.#tryToPlace(resident, at)
    else if (event.kind === 'goes free') this.#end(resident, at, 'released')
    else if (event.exit === 'onward') this.#ready(resident, at)
    else this.#end(resident, at, this.#outcomeOf(event.exit, resident))
  }

  #receive({ arrival, patients }: Coming): void {
    const batchNo = patients.length > 1 ? ++this.#batches : null
    patients.forEach((patient, at) => {
      const casualty: Casualty = {
        id: this.#casualties.length + 1,
        arrival,
        batchNo,
        memberNo: batchNo === null ? null : at + 1,
        animal: patient.animal,
        findings: patient.findings,
        plan: patient.plan,
        changes: [],
        marks: [],
      }
      this.#casualties.push(casualty)
      this.#admit(casualty, arrival.at)
    })
  }

  #admit(casualty: Casualty, at: number): void {
    const foundAt = at - Math.round(30 + this.#random() * 90) * MS_PER_MINUTE
    casualty.changes.push({ at: foundAt, keeper: 'finder' })
    if (this.#random() < DEAD_ON_ARRIVAL) {
      casualty.changes.push({ at, keeper: 'nobody', outcome: 'dead on arrival' })
      return
    }
    const resident: Resident = {
      casualty,
      stageNo: 1,
      spot: undefined,
      centreId: casualty.arrival.centreId,
      waitingSince: undefined,
      isReady: false,
    }
    const place = this.#placeNear(resident, 1, at, true)
    resident.centreId = place?.centreId ?? this.#nearestOpen(resident, at)
    resident.spot = place?.spot
    this.#enter(resident, at)
    this.#begin(resident, 1, at)
    if (place === undefined) this.#wait(resident, at)
  }

  #begin(resident: Resident, stageNo: number, at: number): void {
    resident.stageNo = stageNo
    resident.isReady = false
    resident.casualty.marks.push({ no: stageNo, kind: 'began', at })
    const stage = stageOf(resident.casualty, stageNo)
    const condition = resident.casualty.findings[0]?.condition ?? ''
    const fate = drawFate(this.#random, stage.estimate, condition, at, this.#plan.zone)
    this.#queue.add(fate.at, { kind: 'ends', resident, exit: fate.exit })
  }

  #ready(resident: Resident, at: number): void {
    const { casualty, stageNo } = resident
    casualty.marks.push({ no: stageNo, kind: 'ready', at })
    resident.isReady = true
    if (stageNo === casualty.plan.stages.length) {
      const days = Math.floor(this.#random() * 3)
      this.#waiting.delete(resident)
      this.#queue.add(at + days * MS_PER_DAY + 15 * MS_PER_MINUTE, { kind: 'goes free', resident })
      return
    }
    this.#wait(resident, at)
    this.#queue.add(at + 10 * MS_PER_MINUTE, { kind: 'moves', resident })
  }

  #round(at: number): void {
    const longestFirst = [...this.#waiting].sort((a, b) => (a.waitingSince ?? at) - (b.waitingSince ?? at))
    for (const resident of longestFirst) this.#tryToPlace(resident, at)
  }

  /** Moves an animal that waits: to its next stage when it is ready, else to a proper place for the one it is in. */
  #tryToPlace(resident: Resident, at: number): void {
    if (!this.#waiting.has(resident) || (resident.casualty.changes.at(-1)?.at ?? at) >= at) return
    const { casualty, isReady } = resident
    const wanted = isReady ? resident.stageNo + 1 : resident.stageNo
    const hasWaitedEnough = at - (resident.waitingSince ?? at) >= PATIENCE_MS
    const isHere = this.#site.has(this.#need(casualty, wanted, at), resident.centreId)
    const place = this.#placeNear(resident, wanted, at, hasWaitedEnough || !isHere)
    if (place === undefined) return
    if (resident.spot !== undefined) this.#site.take(resident.spot, at)
    this.#waiting.delete(resident)
    resident.waitingSince = undefined
    const from = resident.centreId
    resident.centreId = place.centreId
    resident.spot = place.spot
    const arrivesAt = from === place.centreId ? at : this.#drive(casualty, from, place.centreId, at)
    this.#enter(resident, arrivesAt)
    if (isReady) this.#begin(resident, wanted, arrivesAt)
  }

  #enter(resident: Resident, at: number): void {
    const { casualty, spot, centreId } = resident
    if (spot !== undefined) this.#site.put(spot, whoOf(casualty))
    casualty.changes.push({ at, keeper: 'centre', centreId, ...spot })
  }

  #drive(casualty: Casualty, from: number, to: number, at: number): number {
    const driverId = 1 + Math.floor(this.#random() * DRIVERS.length)
    casualty.changes.push({ at, keeper: 'driver', driverId })
    return at + minutesBetween(from, to) * MS_PER_MINUTE
  }

  #placeNear(
    resident: Resident,
    stageNo: number,
    at: number,
    isAnywhere: boolean,
  ): { readonly centreId: number; readonly spot: Spot } | undefined {
    const who = whoOf(resident.casualty)
    const need = this.#need(resident.casualty, stageNo, at)
    const here = resident.centreId
    const order = isAnywhere ? centresByDistance(here) : [here]
    for (const centreId of order) {
      if (!this.#maySend(resident, here, centreId, at)) continue
      const spot = this.#site.find(who, need, centreId, at)
      if (spot !== undefined) return { centreId, spot }
    }
    return undefined
  }

  #need(casualty: Casualty, stageNo: number, at: number): PlaceNeed {
    const month = new Date(at).getUTCMonth() + 1
    return this.#site.need(whoOf(casualty), stageOf(casualty, stageNo), month)
  }

  #nearestOpen(resident: Resident, at: number): number {
    const here = resident.centreId
    return centresByDistance(here).find(to => this.#maySend(resident, here, to, at)) ?? here
  }

  /** A move within a stopped centre is none; a first arrival there is not sent in. */
  #maySend(resident: Resident, from: number, to: number, at: number): boolean {
    const { animal } = resident.casualty
    if (CENTRES[to - 1]?.takes.includes(animal.group) !== true) return false
    const { birdStop } = this.#plan
    if (animal.class !== 'bird' || at < birdStop.since) return true
    const isIn = resident.casualty.changes.some(change => change.keeper === 'centre')
    if (!isIn) return to !== birdStop.centreId
    return from === to || (from !== birdStop.centreId && to !== birdStop.centreId)
  }

  #wait(resident: Resident, at: number): void {
    resident.waitingSince ??= at
    this.#waiting.add(resident)
  }

  #end(resident: Resident, at: number, outcome: Outcome): void {
    if (resident.spot !== undefined) this.#site.take(resident.spot, at)
    this.#waiting.delete(resident)
    const change: Change = { at, keeper: 'nobody', outcome }
    resident.casualty.changes.push(change)
  }

  #outcomeOf(exit: 'died' | 'euthanased' | 'left', resident: Resident): Outcome {
    if (exit !== 'left') return exit
    const isYoung = resident.casualty.animal.age === 'young'
    if (isYoung && resident.stageNo === 1) return 'reunited'
    return this.#random() < 0.5 ? 'transferred out' : 'escaped'
  }
}

function stageOf({ plan }: Casualty, no: number): CombinedStage {
  const stage = plan.stages[no - 1]
  if (stage === undefined) throw new RangeError(`no needs a stage of the plan, got ${no}`)
  return stage
}

function whoOf({ id, arrival, animal }: Casualty) {
  return { casualtyId: id, arrivalId: arrival.id, animal }
}

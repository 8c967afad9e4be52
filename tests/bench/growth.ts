/**
 * How the forecast grows with the network and with the days ahead, what it holds in memory, what the worker's draws
 * cost, and how long the options of a call take after each change.
 */
import { setFlagsFromString } from 'node:v8'
import { runInNewContext } from 'node:vm'
import { forecast, withItinerary } from '#lib/forecast/forecast.ts'
import type { ForecastInput, Itinerary } from '#lib/forecast/model.ts'
import { newSharedVariance, SHARED_DRAWS } from '#lib/learn/shared-variance.ts'
import { newWork } from '#lib/numerics/work.ts'
import type { CentreNow, PlacementQuestion, PlanStage } from '#lib/plan/model.ts'
import { outlookOf } from '#lib/plan/outlook.ts'
import { rankOptions } from '#lib/plan/rank-options.ts'
import { withEstimates } from '#tests/support/learned.ts'
import { centre, question } from '#tests/support/placement.ts'
import { REFERENCE, referenceNetwork } from './reference-network.ts'
import { median, type Row, told } from './rows.ts'
import { timed, whole } from './whole.ts'

const SEED = 1
const ROUNDS = 5
const SWEEPS = 5
const CENTRES = [12, 24, 48] as const
const LONG_DAYS = 365
/** Of the work for a centre, from 12 centres to 48: none of it depends on how many others there are. */
const CENTRES_BAR = 1.1
/** Every day looks at all days before it: at most the square of the days, and a tenth. */
const DAYS_BAR = 1.1 * (LONG_DAYS / REFERENCE.days) ** 2
/** A small server's share for one of two forecasts held at once. Ours. */
const MEMORY_BAR_MB = 512
const OPTIONS_BAR_MS = 300
const CALLS = 200
const MB = 1024 * 1024

type Measured = { readonly work: number; readonly ms: number; readonly megabytes: number }

/** Rows of growth, memory, draws and options; `demo` with every stage learned. */
export async function growthRows(demo: ForecastInput): Promise<Row[]> {
  const byCentres: Measured[] = []
  for (const centres of CENTRES) byCentres.push(await measured(sized(centres, REFERENCE.days)))
  const long = await measured(sized(REFERENCE.centres, LONG_DAYS))
  const largest = await measured(sized(CENTRES[2], LONG_DAYS))
  const [least, , most] = byCentres as [Measured, Measured, Measured]
  const perCentre = most.work / least.work / (CENTRES[2] / CENTRES[0])
  const perDays = long.work / least.work
  return [
    ...byCentres.map((one, i) => told(`${CENTRES[i]} centres, ${REFERENCE.days} days`, wordsOf(one))),
    told(`${REFERENCE.centres} centres, ${LONG_DAYS} days`, wordsOf(long)),
    told(`${CENTRES[2]} centres, ${LONG_DAYS} days`, wordsOf(largest)),
    judged('multiply-adds a centre, 48 centres / 12', perCentre, CENTRES_BAR),
    judged(`multiply-adds, ${LONG_DAYS} days / ${REFERENCE.days}`, perDays, DAYS_BAR),
    judged(`memory, 48 centres and ${LONG_DAYS} days, MB`, largest.megabytes, MEMORY_BAR_MB),
    drawsRow(demo),
    optionsRow(demo),
  ]
}

function sized(centres: number, days: number): ForecastInput {
  const scale = centres / REFERENCE.centres
  return referenceNetwork(
    { centres, days, inCare: REFERENCE.inCare * scale, arrivalsPerDay: REFERENCE.arrivalsPerDay * scale },
    SEED,
  )
}

async function measured(input: ForecastInput): Promise<Measured> {
  const work = newWork()
  const before = await heldMegabytes()
  const made = whole(input, work)
  const megabytes = (await heldMegabytes()) - before
  const times = Array.from({ length: ROUNDS }, () => timed(() => whole(input)))
  // Still in use here, so that it was held while it was weighed.
  return { work: work.multiplyAdds, ms: median(times), megabytes: made.demands.size > 0 ? megabytes : 0 }
}

/** Objects and buffers that are still reachable; what was thrown away is swept in the background, a turn or two later. */
async function heldMegabytes(): Promise<number> {
  setFlagsFromString('--expose-gc')
  const collect = runInNewContext('gc') as () => void
  for (let turn = 0; turn < SWEEPS; turn++) {
    collect()
    await new Promise(done => setTimeout(done, 20))
  }
  const { heapUsed, arrayBuffers } = process.memoryUsage()
  return (heapUsed + arrayBuffers) / MB
}

/** What the worker does after learning: a forecast for each draw, of which it keeps sums; no draw knows another's laws. */
function drawsRow(demo: ForecastInput): Row {
  const rounds = Array.from({ length: ROUNDS }, () => {
    const set = drawnFrom(demo, 0)
    const one = timed(() => whole(set))
    const drawn = Array.from({ length: SHARED_DRAWS }, (_, draw) => drawnFrom(demo, draw))
    const all = timed(() => {
      const shared = newSharedVariance()
      for (const input of drawn) shared.add(forecast(input, newWork()))
      shared.doubts()
    })
    return all / one
  })
  return judged(`${SHARED_DRAWS} draws / one set, time (demo size)`, median(rounds), SHARED_DRAWS)
}

/** The input with all that was learned a little quicker or slower, by draw. */
function drawnFrom(input: ForecastInput, draw: number): ForecastInput {
  const power = 1 + 0.02 * (draw - SHARED_DRAWS / 2)
  return withEstimates(input, estimate => {
    const { learned } = estimate
    if (learned === undefined) return { ...estimate }
    const passes = learned.passes.map(chance => 1 - (1 - chance) ** power)
    return { ...estimate, learned: { ...learned, passes } }
  })
}

/** Every call finds a network that has changed since the last one. */
function optionsRow(demo: ForecastInput): Row {
  let made = whole(demo)
  const times = Array.from({ length: CALLS }, (_, call) => {
    const like = demo.itineraries[call % demo.itineraries.length]!
    const asked = questionLike(demo, like)
    return timed(() => {
      made = withItinerary(made, { ...like, casualtyId: `call ${call}`, enteredStageOn: demo.today })
      rankOptions(asked, outlookOf(made))
    })
  }).sort((a, b) => a - b)
  const p95 = times[Math.floor(0.95 * times.length)]!
  return {
    name: `options of a call after a change, 95th percentile of ${CALLS} (demo size)`,
    measured: `${p95.toFixed(1)} ms, median ${median(times).toFixed(1)} ms`,
    bar: `<= ${OPTIONS_BAR_MS} ms`,
    holds: p95 <= OPTIONS_BAR_MS,
  }
}

function questionLike({ today, pools }: ForecastInput, like: Itinerary): PlacementQuestion {
  const stages: PlanStage[] = like.stages.map(({ estimate, need }) => ({
    stage: estimate.stage,
    estimate,
    needs: [need],
  }))
  const ids = [...new Set(pools.map(pool => pool.centreId))]
  const centres: CentreNow[] = ids.map((id, at) => centre(id, 6 + 9 * at, stages, pools))
  const road = (from: number, to: number) => ({
    km: 30 * Math.abs(from - to),
    minutes: 36 * Math.abs(from - to),
  })
  const between = Object.fromEntries(
    ids.map((from, i) => [from, Object.fromEntries(ids.map((to, j) => [to, road(i, j)]))]),
  )
  const asked = question({ today, centres, between })
  return { ...asked, animals: { ...asked.animals, stages } }
}

function wordsOf({ work, ms, megabytes }: Measured): string {
  return `${(work / 1e6).toFixed(1)} million multiply-adds, ${ms.toFixed(0)} ms, ${megabytes.toFixed(1)} MB`
}

function judged(name: string, measured: number, bar: number): Row {
  return { name, measured: measured.toFixed(2), bar: `<= ${bar.toFixed(2)}`, holds: measured <= bar }
}

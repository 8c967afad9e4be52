/**
 * Speed of the forecast, all in one run on one machine: the engine against a bare loop of as many multiply-adds, a
 * change against a rebuild, and beside them a Monte Carlo of the same model. Exit code 1 when a bar does not hold.
 */
import { type Forecast, poolForecast, withItinerary, withoutCasualty } from '#lib/forecast/forecast.ts'
import type { ForecastInput } from '#lib/forecast/model.ts'
import { newWork } from '#lib/numerics/work.ts'
import { simulate } from '#tests/montecarlo/replicate.ts'
import { learnedAsPlanned, withEstimates } from '#tests/support/learned.ts'
import { bareLoop } from './bare-loop.ts'
import { growthRows } from './growth.ts'
import { REFERENCE, referenceNetwork } from './reference-network.ts'
import { isProgram, median, type Row, report, told } from './rows.ts'
import { timed, whole } from './whole.ts'

const SEED = 1
const ROUNDS = 15
const REPLICATIONS = 1000
const RATIO_BAR = 4
const UPDATE_BAR = 20
const DEMO_BAR_MS = 100
/** Days of a stage that are learned. */
const LEARNED_DAYS = 500

function engineRows(input: ForecastInput): Row[] {
  const work = newWork()
  const made = whole(input, work)
  const engine: number[] = []
  const bare: number[] = []
  // In turn, so that a busy moment of the machine meets both.
  for (let round = 0; round < ROUNDS; round++) {
    engine.push(timed(() => whole(input)))
    bare.push(timed(() => bareLoop(work.multiplyAdds)))
  }
  const ratio = median(engine) / median(bare)
  const simulated = timed(() => simulate(input, REPLICATIONS, SEED, true))
  const { centres, inCare, arrivalsPerDay, days } = REFERENCE
  return [
    told(
      'network',
      `${centres} centres x 6 classes x ${days} days, ${inCare} in care, ${arrivalsPerDay} a day`,
    ),
    told('multiply-adds', `${(work.multiplyAdds / 1e6).toFixed(1)} million`),
    told('engine', `${median(engine).toFixed(1)} ms`),
    told('bare loop of as many', `${median(bare).toFixed(1)} ms`),
    {
      name: 'engine / bare loop',
      measured: ratio.toFixed(2),
      bar: `<= ${RATIO_BAR} (goal 2)`,
      holds: ratio <= RATIO_BAR,
    },
    told('Monte Carlo, one replication', `${(simulated / REPLICATIONS).toFixed(2)} ms`),
    told(`${REPLICATIONS} replications / engine (goal 100)`, (simulated / median(engine)).toFixed(0)),
    ...updateRows(input, made, work.multiplyAdds, median(engine)),
  ]
}

function updateRows(input: ForecastInput, made: Forecast, rebuildWork: number, rebuildMs: number): Row[] {
  const changed = input.itineraries.filter((_, i) => i % 20 === 0)
  let most = 0
  const times: number[] = []
  for (const one of changed) {
    const work = newWork()
    times.push(
      timed(() => {
        const without = withoutCasualty(made, one.casualtyId, work)
        for (const demand of without.demands.values()) poolForecast(demand, work)
      }),
    )
    most = Math.max(most, work.multiplyAdds)
    const added = newWork()
    const other = { ...one, casualtyId: 'another' }
    for (const demand of withItinerary(made, other, added).demands.values()) poolForecast(demand, added)
    most = Math.max(most, added.multiplyAdds)
  }
  const factor = rebuildWork / most
  return [
    {
      name: 'rebuild / largest change, multiply-adds',
      measured: factor.toFixed(0),
      bar: `>= ${UPDATE_BAR}`,
      holds: factor >= UPDATE_BAR,
    },
    told('rebuild / change, time', (rebuildMs / median(times)).toFixed(0)),
  ]
}

function demoRow(name: string, input: ForecastInput): Row {
  const first = timed(() => whole(input))
  const later = Array.from({ length: ROUNDS }, () => timed(() => whole(input)))
  return {
    name,
    measured: `${median(later).toFixed(1)} ms, first ${first.toFixed(1)} ms`,
    bar: `<= ${DEMO_BAR_MS} ms`,
    holds: median(later) <= DEMO_BAR_MS,
  }
}

/** Every row of speed. */
export async function speedRows(): Promise<Row[]> {
  const demo = referenceNetwork({ centres: 6, inCare: 150, arrivalsPerDay: 8, days: 180 }, SEED)
  const learned = withEstimates(demo, plan => learnedAsPlanned(plan, LEARNED_DAYS, demo.today))
  return [
    demoRow('demo size (6 centres, 150 in care)', demo),
    demoRow('demo size, every stage learned', learned),
    ...engineRows(referenceNetwork(REFERENCE, SEED)),
    ...(await growthRows(learned)),
  ]
}

if (isProgram(import.meta.url)) report(await speedRows())

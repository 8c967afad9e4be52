/**
 * The forecast against 40,000 futures of the reference network, by a simulation that shares no code with it.
 * The bar: mean z^2 of P(N >= k) within 0.9 to 1.1. Seeds may be given: `npm run verify:montecarlo -- 7 8`.
 */
import { forecast } from '#lib/forecast/forecast.ts'
import { simulate } from '#tests/montecarlo/replicate.ts'
import { agreement } from '#tests/support/agreement.ts'
import { REFERENCE, referenceNetwork } from './reference-network.ts'
import { isProgram, type Row, report } from './rows.ts'

const REPLICATIONS = 40_000

/** The rows of one seed. */
export function monteCarloRows(seed: number): Row[] {
  const input = referenceNetwork(REFERENCE, seed)
  const tally = simulate(input, REPLICATIONS, seed + 1000)
  const { wanted, short } = agreement(forecast(input), tally, 6)
  const inBar = wanted.meanSquare >= 0.9 && wanted.meanSquare <= 1.1
  return [
    {
      name: `seed ${seed}: mean z^2 of P(N >= k), ${wanted.cells} cells`,
      measured: wanted.meanSquare.toFixed(3),
      bar: '0.9 to 1.1',
      holds: inBar,
    },
    { name: `seed ${seed}: worst z`, measured: wanted.worst.toFixed(2), bar: '', holds: true },
    {
      name: `seed ${seed}: mean z^2 of P(short), ${short.cells} cells`,
      measured: short.meanSquare.toFixed(3),
      bar: '',
      holds: true,
    },
  ]
}

if (isProgram(import.meta.url)) {
  const seeds = process.argv.slice(2).map(Number)
  report((seeds.length > 0 ? seeds : [1]).flatMap(monteCarloRows))
}

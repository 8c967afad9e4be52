/** The predicted stays of tests/golden/single_stays.R. */
import type { PredictedStay } from '#lib/judge/single-stay.ts'
import golden from '../golden/single-stays.json' with { type: 'json' }

export const GOLDEN_STAYS: readonly PredictedStay[] = golden.scale.map((scale, i) => ({
  staying: Array.from({ length: golden.days }, (_, d) => Math.exp(-(((d + 1) / scale) ** golden.shape))),
  until: golden.until[i]!,
  isEnded: golden.ended[i] === 1,
}))

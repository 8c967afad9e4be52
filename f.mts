import { learn } from '#lib/service/learn.ts'
import { readState } from '#lib/service/network.ts'
import { forecast, poolForecast } from '#lib/forecast/forecast.ts'
import { forecastInput } from '#lib/forecast/from-network.ts'
import { newWork } from '#lib/numerics/work.ts'
import { dayOfInstant } from '#lib/domain/day.ts'
const now = new Date('2026-11-29T20:40:00Z')
if (process.argv[2] === 'learn') { const t = performance.now(); const c = process.cpuUsage(); console.log('run', await learn(now), (performance.now() - t).toFixed(0), 'ms, cpu', (process.cpuUsage(c).user/1e6).toFixed(1)) }
for (const when of [now, new Date('2026-07-01T10:00:00Z')]) {
const { state, trade } = await readState(now)
for (let i = 0; i < 4; i++) {
  const work = newWork()
  const cpu0 = process.cpuUsage()
  const a = performance.now(); const { input } = forecastInput(state, { ...trade, learned: new Map([...trade.learned].map(([k, v]) => [k, { ...v }])) }, { today: dayOfInstant(when, state.zone), horizonDays: 180, shareOfTodayLeft: .2, asAt: when }); const b = performance.now()
  const made = forecast(input, work); const c = performance.now(); for (const d of made.demands.values()) poolForecast(d, work); const d = performance.now()
  const animals = input.arrivals.reduce((s, x) => s + x.eventsPerDay.reduce((p, q) => p + q, 0) * x.broodSizePmf.reduce((p, q, i) => p + q * (i + 1), 0), 0)
  let occ = 0; for (const [, dm] of made.demands) for (const k of dm.classes) { const { pmf, stride } = k.wanted; for (let j = 0; j < stride; j++) occ += j * pmf[90 * stride + j]! }
  console.log('streams', input.arrivals.length, 'animals', animals.toFixed(1), 'wanted on day 90', occ.toFixed(2), 'cpu', ((process.cpuUsage(cpu0).user) / 1e3).toFixed(0), 'ms; input', (b - a).toFixed(0), 'forecast', (c - b).toFixed(0), 'fans', (d - c).toFixed(0), 'MAC', (work.multiplyAdds / 1e6).toFixed(1))
}}
process.exit(0)

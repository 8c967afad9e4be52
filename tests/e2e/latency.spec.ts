/**
 * How long answers take, told and not judged in `npm test`; `npm run verify:latency` asks ten times as often and fails
 * when the bar of the options does not hold. Throughput stands beside the barest page we have, in the same run.
 */
import { expect } from '@playwright/test'
import { COORDINATOR, test } from '#tests/support/journey.ts'
import { surroundings } from '#tests/support/session.ts'

const IS_FULL = process.env['ROOSTWRIGHT_FULL'] === '1'
const REQUESTS = IS_FULL ? 200 : 20
const LOAD_SECONDS = IS_FULL ? 8 : 1
const AT_ONCE = 8
const OPTIONS_BAR_MS = 300

test('the options of a call answer in time', async ({ asPerson, context, records }) => {
  test.setTimeout(180_000)
  await asPerson(COORDINATOR)
  const cookie = (await context.cookies()).map(({ name, value }) => `${name}=${value}`).join('; ')
  const base = surroundings('NEXTAUTH_URL')
  const read = async (path: string): Promise<number> => {
    const start = performance.now()
    const answer = await fetch(base + path, { headers: { cookie }, redirect: 'manual' })
    await answer.arrayBuffer()
    expect(answer.status).toBe(200)
    return performance.now() - start
  }
  const [call] = await records<{ id: number }>(
    `insert into call (opened_at, state, facts) select now(), 'open', facts from call
      where facts ->> 'species' is not null order by id limit 1 returning id`,
  )
  const options = `/calls/${call!.id}`
  await read(options)
  const warm = await timesOf(REQUESTS, () => read(options))
  const changed = await timesOf(REQUESTS, async () => {
    await records('update network set revision = revision + 1')
    return read(options)
  })
  const bare = await perSecond(read, '/api/health')
  const rows = [
    ['options, nothing changed', figures(warm), `p95 <= ${OPTIONS_BAR_MS} ms`, p95(warm) <= OPTIONS_BAR_MS],
    [
      'options, network just changed',
      figures(changed),
      `p95 <= ${OPTIONS_BAR_MS} ms`,
      p95(changed) <= OPTIONS_BAR_MS,
    ],
    ['bare answer with its counts', `${bare.toFixed(0)}/s`, '', true],
  ] as (readonly [string, string, string, boolean])[]
  for (const [name, path] of [
    ['options', options],
    ['the round', '/round/1?as=list'],
    ['calls', '/calls'],
    ['who is where', '/casualties'],
    ['weeks ahead', '/weeks'],
  ] as const) {
    const rate = await perSecond(read, path)
    rows.push([name, `${rate.toFixed(0)}/s, ${(rate / bare).toFixed(2)} of the bare answer`, '', true])
  }
  await records('delete from call where id = $1', [call!.id])
  for (const [name, measured, bar, holds] of rows) {
    console.log(
      `${name.padEnd(32)}${measured.padEnd(44)}${bar.padEnd(16)}${bar === '' ? '' : holds ? 'yes' : 'NO'}`,
    )
  }
  if (IS_FULL) expect(rows.filter(([, , , holds]) => !holds)).toEqual([])

  async function perSecond(ask: (path: string) => Promise<number>, path: string): Promise<number> {
    await ask(path)
    const until = performance.now() + LOAD_SECONDS * 1000
    let answered = 0
    const one = async () => {
      while (performance.now() < until) {
        await ask(path)
        answered++
      }
    }
    await Promise.all(Array.from({ length: AT_ONCE }, one))
    return answered / LOAD_SECONDS
  }
})

async function timesOf(count: number, ask: () => Promise<number>): Promise<number[]> {
  const times: number[] = []
  for (let n = 0; n < count; n++) times.push(await ask())
  return times.sort((a, b) => a - b)
}

function p95(sorted: readonly number[]): number {
  return sorted[Math.min(sorted.length - 1, Math.ceil(sorted.length * 0.95) - 1)] ?? 0
}

function figures(sorted: readonly number[]): string {
  const middle = sorted[Math.floor(sorted.length / 2)] ?? 0
  return `median ${middle.toFixed(0)}, p95 ${p95(sorted).toFixed(0)}, of ${sorted.length}`
}

/**
 * The queue of a phone against a server that is killed in mid-send: the queue's own code sends, the production build
 * answers, SIGKILL falls while an entry is on its way. Counted: entries lost, entries doubled. The same with the keys
 * taken away shows that they are what holds doubles back.
 */
import { afterAll, beforeAll, expect, test } from 'vitest'
import { answerOf, drain, formOf, type KeptTap, type TapAnswer } from '#app/(desk)/round/_parts/drain.ts'
import { connected } from '#seed/boot/database.mjs'
import { Machine, until } from '#tests/support/served/machine.ts'
import { PlainBrowser } from '#tests/support/served/plain-browser.ts'

const NAME = 'queue'
const ODILE = 'odile.brackenray@roostwright.example'
const KILLS = process.env['ROOSTWRIGHT_FULL'] === '1' ? 50 : 5
const A_ROUND = 8
/** No animal of the demonstration weighs as much: the grams name the entry. */
const GRAMS = 500_000

let machine: Machine
let phone: PlainBrowser
let animals: readonly { id: number; centre: number }[] = []

const ask = async <Row extends object>(sql: string, ...values: unknown[]): Promise<Row[]> =>
  connected(machine.databaseUrl(NAME), async client => (await client.query<Row>(sql, values)).rows)

beforeAll(async () => {
  machine = await Machine.begin()
  await machine.fill(NAME)
  await machine.serve(NAME)
  phone = new PlainBrowser(() => machine.url(NAME))
  expect(await phone.signIn(ODILE)).toBe(true)
  animals = await ask(
    `select w.casualty_id as id, w.centre_id as centre from whereabouts w
      join centre c on c.id = w.centre_id and c.name = 'Averbrook Wildlife Hospital' where w.until is null`,
  )
}, 240_000)
afterAll(() => Machine.end())

let made = 0
function tapped(withKey: boolean): KeptTap {
  const animal = animals[made % animals.length]
  made++
  const fields = {
    tap: 'weight',
    grams: String(GRAMS + made),
    casualtyId: String(animal?.id),
    centreId: String(animal?.centre),
    ...(withKey && { key: `phone-key-${made}` }),
  }
  return { key: String(made), personId: 1, fields, words: '', madeAt: Date.now() }
}

function memory(taps: KeptTap[]) {
  return {
    waiting: async () => taps,
    remove: async (key: string) =>
      void taps.splice(
        taps.findIndex(tap => tap.key === key),
        1,
      ),
    refuse: async (_key: string, why: string) => {
      throw new Error(`refused: ${why}`)
    },
  }
}

let onItsWay = false
let posts = 0
async function post(tap: KeptTap): Promise<TapAnswer> {
  onItsWay = true
  posts++
  const form = formOf(tap, Date.now())
  // A phone without keys would make a new one each time it sends.
  if (!form.has('key')) form.set('key', `without-key-${posts}`)
  try {
    const { status, html } = await phone.post('/api/round', form)
    return answerOf(status, JSON.parse(html))
  } catch {
    return { kind: 'unreachable' }
  } finally {
    onItsWay = false
  }
}

/** Sends a round of entries while the server is killed once in the middle of it, and again until all were heard. */
async function sendThroughKill(withKey: boolean, stopsAnswers: boolean): Promise<number[]> {
  const taps = Array.from({ length: A_ROUND }, () => tapped(withKey))
  const wanted = taps.map(({ fields }) => Number(fields['grams']))
  const store = memory(taps)
  let heard = 0
  const deafAt = stopsAnswers ? Math.floor(A_ROUND / 2) : -1
  const sending = drain(store, async tap => {
    const answer = await post(tap)
    // It was recorded, and the answer is lost on the way.
    return ++heard === deafAt ? { kind: 'unreachable' } : answer
  })
  if (!stopsAnswers) {
    await until(() => onItsWay && taps.length <= A_ROUND - 2)
    await machine.kill(NAME, ['app'])
  }
  await sending
  if (!stopsAnswers) await machine.restart(NAME, 'app')
  await until(async () => (await drain(store, post)) === 'empty')
  return wanted
}

async function countIn(wanted: readonly number[]): Promise<{ lost: number; doubled: number }> {
  const rows = await ask<{ grams: number; n: number }>(
    'select grams, count(*)::int as n from weight where grams = any ($1::float8[]) group by grams',
    wanted,
  )
  return { lost: wanted.length - rows.length, doubled: rows.filter(({ n }) => n > 1).length }
}

test(
  `${KILLS} kills in mid-send: nothing is lost, nothing is doubled`,
  async () => {
    const wanted: number[] = []
    for (let nth = 0; nth < KILLS; nth++) wanted.push(...(await sendThroughKill(true, false)))
    const { lost, doubled } = await countIn(wanted)
    process.stdout.write(
      `\nround queue: ${KILLS} kills, ${wanted.length} entries, ${posts} sendings, lost ${lost}, doubled ${doubled}\n`,
    )
    expect(posts).toBeGreaterThan(wanted.length)
    expect({ lost, doubled }).toEqual({ lost: 0, doubled: 0 })
  },
  KILLS * 60_000,
)

test('without keys the same queue doubles what was recorded and not heard', async () => {
  const wanted = await sendThroughKill(false, true)
  expect((await countIn(wanted)).doubled).toBeGreaterThan(0)
  const withKey = await sendThroughKill(true, true)
  expect(await countIn(withKey)).toEqual({ lost: 0, doubled: 0 })
})

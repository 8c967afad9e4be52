/**
 * Journeys 1 and 3 across midnight and across both changes of the clock, with the clock of the program set: a call is
 * opened on one side and answered on the other, the line is offered on one side and accepted on the other.
 */
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { connected } from '#seed/boot/database.mjs'
import { Machine } from '#tests/support/served/machine.ts'
import { NIGHTS, TURNS } from '#tests/support/served/nights.ts'
import { PlainBrowser } from '#tests/support/served/plain-browser.ts'
import { decoded, filled, formWith, type PlainForm } from '#tests/support/served/plain-form.ts'

const COORDINATOR = 'marit.sollwyn@roostwright.example'
const NEXT_COORDINATOR = 'joss.penhaddon@roostwright.example'
const MS_PER_MINUTE = 60_000
const MINUTES_MAX = 10

let machine: Machine

beforeAll(async () => {
  machine = await Machine.begin({
    isThrowaway: true,
    env: { ROOSTWRIGHT_TEST: '1', ROOSTWRIGHT_TEST_CLOCK: '1' },
  })
  await Promise.all(NIGHTS.map(({ database, evening }) => machine.fill(database, evening)))
  for (const { database } of NIGHTS) {
    // The drive of the demonstration would be late at each of these hours, and its alarm names its own day.
    await records(
      database,
      `update leg set due_at = due_at + interval '30 days', alarm_at = alarm_at + interval '30 days'`,
    )
    await machine.serve(database)
  }
}, MINUTES_MAX * 60_000)

afterAll(() => Machine.end(), 60_000)

async function records<T extends object>(
  database: string,
  sql: string,
  values: unknown[] = [],
): Promise<T[]> {
  return connected(machine.databaseUrl(database), async client => (await client.query<T>(sql, values)).rows)
}

async function setClock(database: string, at: string): Promise<void> {
  await records(
    database,
    'insert into test_clock (id, at) values (1, $1) on conflict (id) do update set at = excluded.at',
    [at],
  )
}

async function signedIn(database: string, email = COORDINATOR): Promise<PlainBrowser> {
  const browser = new PlainBrowser(() => machine.url(database))
  expect(await browser.signIn(email)).toBe(true)
  return browser
}

/** A call with its three facts; the clock stands. */
async function openCall(browser: PlainBrowser, animalTyped: string, wrongTyped: string): Promise<string> {
  const desk = await browser.get('/calls')
  const button = must(formWith(desk.html, [], { after: desk.html.indexOf('<main') }))
  const { to } = await browser.post('/calls', filled(button, {}))
  const page = new URL(to, 'http://localhost').pathname
  expect(page).toMatch(/^\/calls\/\d+$/)
  const typed = { animalTyped, wrongTyped, whereTyped: 'Heskwith lane', finderPhone: '01632 960123' }
  const kept = await browser.post(page, filled(await sheetOf(browser, page), typed, ['do', 'rank']))
  expect(kept.status).toBe(303)
  return page
}

async function sheetOf(browser: PlainBrowser, page: string): Promise<PlainForm> {
  return must(formWith((await browser.get(page)).html, ['animalTyped']))
}

function must<T>(found: T | undefined): T {
  if (found === undefined) throw new Error('the page lacks what the test needs')
  return found
}

/** A vet has agreed that the finder keeps it. */
async function agreeToKeep(browser: PlainBrowser, page: string): Promise<void> {
  const typed = { vetName: 'The vet on duty', keptBy: 'finder' }
  await browser.post(page, filled(await sheetOf(browser, page), typed, ['do', 'rank']))
}

/** What a person reads. */
function wordsOf(html: string): string {
  const page = html.slice(html.indexOf('<main'), html.indexOf('</main>'))
  return decoded(page.replaceAll(/<script\b.*?<\/script>/gs, ' ').replaceAll(/<[^>]*>/g, ' ')).replaceAll(
    /\s+/g,
    ' ',
  )
}

async function take(browser: PlainBrowser, page: string, kind: string): Promise<void> {
  const sheet = await sheetOf(browser, page)
  const button = must(sheet.buttons.find(([name, key]) => name === 'take' && key.startsWith(kind)))
  const agreed = [...sheet.names].filter(name => name.startsWith('agreedBy-'))
  const typed = Object.fromEntries(agreed.map(name => [name, 'The one who answered']))
  const { status } = await browser.post(page, filled(sheet, typed, button))
  expect(status).toBe(303)
}

describe.each(TURNS)('$name', ({ night: { database, morning, morningShown }, turn }) => {
  test('a call opened before and answered after names the right day and hour everywhere', async () => {
    await setClock(database, turn.opened)
    const browser = await signedIn(database)
    const page = await openCall(browser, 'kestrel', 'broken leg')
    expect(wordsOf((await browser.get(page)).html)).toContain(turn.openedShown)
    await setClock(database, turn.answered)
    const waiting = wordsOf((await browser.get(page)).html)
    expect(waiting).toContain(turn.openedShown)
    expect(waiting).toContain('5 min')
    await take(browser, page, 'admit')
    const answered = (await browser.get(page)).html
    expect(wordsOf(answered)).toContain(turn.answeredShown)
    expect(wordsOf(answered)).not.toContain(turn.otherDay)
    const reference = must(/class="ref"[^>]*>([^<]+)/.exec(answered)?.[1])
    const card = wordsOf((await browser.get(`/casualties/${encodeURIComponent(reference)}`)).html)
    expect(card).toContain(turn.answeredShown)
    expect(card).not.toContain(turn.otherDay)
  })

  test('the place, the checks and the finder are counted from the day of the answer', async () => {
    await setClock(database, turn.opened)
    const browser = await signedIn(database)
    const page = await openCall(browser, 'kestrel', 'broken leg')
    await setClock(database, turn.answered)
    await take(browser, page, 'admit')
    const [found] = await records<Admitted>(database, ADMITTED, [Number(page.split('/').at(-1))])
    const { given_on, first_counted_from, first_due_on, finder_until, expected_at, expires_at, minutes } =
      must(found)
    expect(given_on).toBe(turn.day)
    expect(first_counted_from).toBe(turn.day)
    expect(first_due_on >= turn.day).toBe(true)
    expect(finder_until).toBe(30)
    expect(expected_at.getTime()).toBe(Math.trunc(Date.parse(turn.answered) + minutes * MS_PER_MINUTE))
    // Four hours of waiting are four hours, whatever the clocks did meanwhile.
    expect(expires_at.getTime() - expected_at.getTime()).toBe(240 * MS_PER_MINUTE)
  })

  test('a call-back in twenty minutes is in twenty minutes', async () => {
    await setClock(database, turn.opened)
    const browser = await signedIn(database)
    const page = await openCall(browser, 'hedgehog', 'maggots')
    const what = `promised before ${turn.answeredShown}`
    const typed = { callBackMinutes: '20', callBackWhat: what }
    const { status } = await browser.post(
      page,
      filled(await sheetOf(browser, page), typed, ['do', 'call-back']),
    )
    expect(status).toBe(303)
    const [promised] = await records<{ due_at: Date }>(
      database,
      'select due_at from call_back where what = $1',
      [what],
    )
    expect(must(promised).due_at.getTime() - Date.parse(turn.opened)).toBe(20 * MS_PER_MINUTE)
    expect(wordsOf((await browser.get('/calls')).html)).toContain(turn.backShown)
  })

  test('kept till morning is rung back at eight by the clock of that morning', async () => {
    await setClock(database, turn.opened)
    const browser = await signedIn(database)
    const page = await openCall(browser, 'blackbird', 'cat had it')
    await setClock(database, turn.answered)
    await agreeToKeep(browser, page)
    await take(browser, page, 'keep')
    const [back] = await records<{ due_at: Date }>(
      database,
      'select due_at from call_back where call_id = $1 and done_at is null',
      [Number(page.split('/').at(-1))],
    )
    expect(must(back).due_at.toISOString()).toBe(morning)
    expect(wordsOf((await browser.get('/calls')).html)).toContain(morningShown)
  })

  test('the line is offered before and accepted after; what passes keeps its hour, and the turn ends when it says', async () => {
    await setClock(database, turn.opened)
    await records(database, NO_TURNS)
    const holder = await signedIn(database)
    await sendOnLine(holder, ['untilAt'], {})
    await openCall(holder, 'hedgehog', `maggots before ${turn.answered}`)
    await sendOnLine(holder, ['to', 'words'], { words: 'The gate at the ward sticks' })

    await setClock(database, turn.answered)
    const next = await signedIn(database, NEXT_COORDINATOR)
    const offered = await next.get('/line')
    expect(wordsOf(offered.html)).toContain('The gate at the ward sticks')
    expect(wordsOf(offered.html)).toContain(turn.openedShown)
    const ends = endsOffered(offered.html)
    // Each hour once, also in a night that has one of them twice.
    expect(new Set(ends.map(([, shown]) => shown)).size).toBe(ends.length)
    const [untilAt, shown] = must(ends[7])
    await sendOnLine(next, ['untilAt', 'turnId'], { untilAt }, 'reason')
    expect(wordsOf((await next.get('/line')).html)).toContain(
      `You hold the line until ${shown.split(', ').at(-1)}`,
    )
    const turns = await records<{ taken_at: Date; until_at: Date }>(
      database,
      'select taken_at, until_at from line_turn where ended_at is null',
    )
    expect(turns.map(({ taken_at }) => taken_at.getTime())).toEqual([Date.parse(turn.answered)])
    expect(turns[0]?.until_at.toISOString()).toBe(untilAt)

    await setClock(database, new Date(Date.parse(untilAt) - 1000).toISOString())
    expect(wordsOf((await next.get('/line')).html)).toContain('You hold the line until')
    await setClock(database, untilAt)
    expect(wordsOf((await next.get('/line')).html)).toContain('Your turn on the line ended')
    expect(wordsOf((await next.get('/calls')).html)).toContain('Nobody holds the line')
  })
})

/** The line as if nobody ever held it: turns are kept for good, so their triggers are put aside. */
const NO_TURNS = `begin; set local session_replication_role = replica;
  delete from line_offer; delete from line_turn; commit`

/** The form of the line that has these fields, sent as the page gave it but for what is typed. */
async function sendOnLine(
  browser: PlainBrowser,
  names: readonly string[],
  typed: Readonly<Record<string, string>>,
  without = '',
): Promise<void> {
  const form = must(formWith((await browser.get('/line')).html, names, { without }))
  const { status, to } = await browser.post('/line', filled(form, typed))
  expect([status, new URL(to, 'http://localhost').pathname]).toEqual([303, '/line'])
}

/** The hours at which a turn can end, with the words for each. */
function endsOffered(html: string): [iso: string, shown: string][] {
  const select = must(/<select\b[^>]*name="untilAt"[^>]*>(.*?)<\/select>/s.exec(html)?.[1])
  return [...select.matchAll(/<option\b[^>]*value="([^"]+)"[^>]*>(.*?)<\/option>/gs)].map(
    ([, iso = '', shown = '']) => [iso, decoded(shown)],
  )
}

type Admitted = {
  readonly given_on: string
  readonly first_counted_from: string
  readonly first_due_on: string
  readonly finder_until: number
  readonly expected_at: Date
  readonly expires_at: Date
  readonly minutes: number
}

/** Of the animal that was admitted on a call. */
const ADMITTED = `
  select c.given_on::text, f.expires_on - c.given_on as finder_until, h.expected_at, h.expires_at,
         (select min(counted_from)::text from check_due where casualty_id = c.id and stage_no = 1) as first_counted_from,
         (select min(due_on)::text from check_due where casualty_id = c.id) as first_due_on,
         (o -> 'travel' ->> 'minutes')::float as minutes
    from decision d
    join casualty c on c.arrival_id = d.arrival_id
    join arrival a on a.id = c.arrival_id
    join finder f on f.id = a.finder_id
    join claim h on h.casualty_id = c.id and h.kind = 'hold'
    cross join jsonb_array_elements(d.options -> 'options') o
   where d.call_id = $1 and o ->> 'key' = d.taken_key`

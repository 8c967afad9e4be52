/**
 * The ways in as people and others use them, on the production build outside the demonstration: through an identity
 * provider that is a program of somebody else's, by password, by link; and what was tried to get in without.
 */
import { afterAll, beforeAll, beforeEach, describe, expect, it, test } from 'vitest'
import { DEMO_PASSWORD } from '#lib/domain/demo-password.mjs'
import { WAIT_RULES } from '#lib/domain/sign-in-wait.ts'
import { hashPassword } from '#lib/service/password.ts'
import { connected } from '#seed/boot/database.mjs'
import { allowConsole } from '#tests/support/quiet.ts'
import { openIdentity } from '#tests/support/served/identity.mjs'
import { visitIdentity } from '#tests/support/served/identity-visit.ts'
import { Machine, until } from '#tests/support/served/machine.ts'
import { PlainBrowser } from '#tests/support/served/plain-browser.ts'
import { decoded, filled, formWith } from '#tests/support/served/plain-form.ts'

const NAME = 'ways'
const PASSWORD = 'seven grey herons'
const ELSEWHERE = 'https://elsewhere.example'
const SESSION = 'next-auth.session-token'
const MARIT = 'marit.sollwyn@roostwright.example'
const JOSS = 'joss.penhaddon@roostwright.example'
const EMRIK = 'emrik.tallowby@roostwright.example'
const ODILE = 'odile.brackenray@roostwright.example'
const HAMO = 'hamo.luckstone@roostwright.example'
const ADMINISTRATOR = 'wilhelmina.sparrowhythe@roostwright.example'

let machine: Machine
let identity: Awaited<ReturnType<typeof openIdentity>>

const us = () => machine.url(NAME)
const browser = () => new PlainBrowser(us)
const ask = async <Row extends object>(sql: string, ...values: unknown[]): Promise<Row[]> =>
  connected(machine.databaseUrl(NAME), async client => (await client.query<Row>(sql, values)).rows)
const idOf = async (email: string) =>
  (await ask<{ id: number }>('select id from person where email = $1', email))[0]?.id
const isIn = async (who: PlainBrowser) => (await who.get('/api/me')).status === 200

async function signedIn(email: string, password = PASSWORD): Promise<PlainBrowser> {
  const who = browser()
  expect(await who.signIn(email, password)).toBe(true)
  return who
}

beforeAll(async () => {
  identity = await openIdentity({
    marit: { email: 'Marit.Sollwyn@roostwright.example', email_verified: true },
    stranger: { email: 'stranger@elsewhere.example', email_verified: true },
    doubtful: { email: JOSS, email_verified: false },
    silent: { email: JOSS },
    nameless: {},
    gone: { email: HAMO, email_verified: true },
  })
  machine = await Machine.begin({ isThrowaway: true, env: { ...identity.env, ROOSTWRIGHT_DEMO: '0' } })
  await machine.fill(NAME)
  await machine.serve(NAME)
  identity.knows(us())
  await ask('update person set password_hash = $1 where email <> $2', await hashPassword(PASSWORD), JOSS)
  await ask('update person set is_active = false where email = $1', HAMO)
}, 240_000)
afterAll(async () => {
  await Machine.end()
  await identity.close()
})
// What it says of settings that are right for a test.
beforeEach(() => allowConsole(/^oidc-provider (NOTICE|WARNING)/))

describe('an identity provider', () => {
  const through = (who: PlainBrowser, account: string, to?: string) =>
    visitIdentity(who, us(), identity.issuer, account, to)

  const arrive = (who: PlainBrowser, back: string) => who.get(back)

  it('is offered by its name, and lets in whom we know by an e-mail it has verified', async () => {
    const who = browser()
    expect((await who.get('/sign-in')).html).toContain('Sign in with Coast account')
    const back = await through(who, 'marit', '?to=/casualties')
    const { status, to } = await arrive(who, back)
    expect([status, new URL(to, us()).href]).toEqual([302, `${us()}/casualties`])
    expect(await isIn(who)).toBe(true)
    expect((await who.get('/casualties')).html).toContain('Marit Sollwyn')
    const noted = await ask(
      "select how, was_let_in from sign_in where person_id = $1 and how = 'provider'",
      await idOf(MARIT),
    )
    expect(noted).toEqual([{ how: 'provider', was_let_in: true }])
    // Her session ends like any other.
    await ask('update person set session_epoch = session_epoch + 1 where email = $1', MARIT)
    expect(await isIn(who)).toBe(false)
  })

  it.each([
    ['an e-mail that nobody has here', 'stranger'],
    ['an e-mail that it has not verified', 'doubtful'],
    ['an e-mail of which it does not say whether', 'silent'],
    ['no e-mail', 'nameless'],
    ['the e-mail of somebody who was switched off', 'gone'],
  ])('opens nothing for %s, and says so', async (_what, account) => {
    const people = await ask('select count(*) from person')
    const who = browser()
    const { to } = await arrive(who, await through(who, account))
    const said = await who.get(to.replace(us(), ''))
    expect(said.html).toContain('Nobody here has the e-mail that this account says is yours')
    expect(await isIn(who)).toBe(false)
    expect(await ask('select count(*) from person')).toEqual(people)
  })

  it('opens nothing in a browser that did not leave from here, nor twice', async () => {
    const who = browser()
    const back = await through(who, 'marit')
    const other = browser()
    await arrive(other, back)
    expect(await isIn(other)).toBe(false)
    // Somebody who left herself, with another's answer put in her way.
    const victim = browser()
    await victim.get('/sign-in/provider')
    await arrive(victim, back)
    expect(await isIn(victim)).toBe(false)
    // All that her browser had when she came back, used once by her and once more.
    const again = browser()
    for (const [name, value] of who.cookies) again.cookies.set(name, value)
    await arrive(who, back)
    expect(await isIn(who)).toBe(true)
    await arrive(again, back)
    expect(await isIn(again)).toBe(false)
  })

  it('leads nowhere but to us, whatever the way there was given', async () => {
    const asked = [ELSEWHERE, '//elsewhere.example', '/\\elsewhere.example', `${us()}@elsewhere.example`]
    for (const to of asked) {
      const who = browser()
      const back = await through(who, 'marit', `?to=${encodeURIComponent(to)}`)
      expect(new URL((await arrive(who, back)).to, us()).href).toBe(`${us()}/`)
    }
    const who = browser()
    const { html } = await who.get('/api/auth/csrf')
    const { csrfToken } = JSON.parse(html) as { csrfToken: string }
    await who.post('/api/auth/signin/provider', new URLSearchParams({ csrfToken, callbackUrl: ELSEWHERE }))
    expect(decodeURIComponent(who.cookies.get('next-auth.callback-url') ?? '')).not.toContain('elsewhere')
    const tricked = await browser().get('/sign-in/provider', { 'x-forwarded-host': 'elsewhere.example' })
    expect(tricked.to).not.toContain('elsewhere')
  })
})

describe('a password', () => {
  it('of the demonstration opens nothing, though the record has its hash; the front page offers no way in', async () => {
    const [{ known } = { known: 0 }] = await ask<{ known: number }>(
      'select count(*)::int as known from person where email = $1 and password_hash is not null',
      JOSS,
    )
    expect(known).toBe(1)
    expect(await browser().signIn(JOSS, DEMO_PASSWORD)).toBe(false)
    expect((await browser().get('/')).html).not.toContain('Answer the waiting call')
  })

  it('is guessed in turn, whatever address the guesser says is hers', async () => {
    const who = browser()
    const said: string[] = []
    for (let nth = 0; nth <= WAIT_RULES.pair.free; nth += 1) {
      const lie = `198.51.100.${nth}`
      const { html } = await who.trySignIn(EMRIK, 'a guess', {
        'x-forwarded-for': lie,
        'x-real-ip': lie,
        'x-connection-address': lie,
        forwarded: `for=${lie}`,
      })
      said.push(/Too many tries|do not belong together/.exec(html)?.[0] ?? html.slice(0, 200))
    }
    expect(said).toEqual([...Array(WAIT_RULES.pair.free).fill('do not belong together'), 'Too many tries'])
    expect((await who.trySignIn(EMRIK, PASSWORD)).html).toContain('Too many tries')
    expect(await isIn(who)).toBe(false)
  })

  it('leads nowhere but to us', async () => {
    for (const to of [ELSEWHERE, '//elsewhere.example', '/\\elsewhere.example', '/\t/elsewhere.example']) {
      const { status, to: next } = await browser().trySignIn(
        MARIT,
        PASSWORD,
        {},
        { to, returnTo: to, callbackUrl: to },
      )
      expect([status, new URL(next, us()).href]).toEqual([303, `${us()}/`])
    }
  })

  it('is not taken from a form on another site', async () => {
    const who = browser()
    const { status } = await who.trySignIn(MARIT, PASSWORD, { origin: ELSEWHERE })
    expect(status).toBeGreaterThanOrEqual(400)
    expect(who.cookies.has(SESSION)).toBe(false)
  })
})

describe('a session', () => {
  it('can be neither given to somebody beforehand, nor changed, nor made up', async () => {
    const attacker = await signedIn(ODILE)
    const given = attacker.cookies.get(SESSION) ?? ''
    const victim = browser()
    victim.cookies.set(SESSION, 'chosen-by-another')
    expect((await victim.trySignIn(MARIT, PASSWORD)).status).toBe(303)
    expect(victim.cookies.get(SESSION)).not.toBe('chosen-by-another')
    const at = Math.floor(given.length / 2)
    const forged = [
      `${given.slice(0, at)}${given[at] === 'A' ? 'B' : 'A'}${given.slice(at + 1)}`,
      given.split('.').slice(0, 4).join('.'),
      `${Buffer.from('{"alg":"none"}').toString('base64url')}.${Buffer.from('{"sub":"1","epoch":1}').toString('base64url')}.`,
      'chosen-by-another',
      '',
    ]
    for (const value of forged) {
      const who = browser()
      who.cookies.set(SESSION, value)
      expect((await who.get('/api/me')).status).toBe(401)
      expect((await who.get('/casualties')).to).toContain('/sign-in')
    }
  })

  it('is asked for whatever the headers say was done before', async () => {
    const tricks: Readonly<Record<string, string>>[] = [
      { 'x-middleware-subrequest': 'proxy:proxy:proxy:proxy:proxy' },
      { 'x-asked-path': ELSEWHERE },
      { 'x-forwarded-host': 'elsewhere.example' },
      { 'next-url': '/calls' },
    ]
    for (const headers of tricks) {
      const { to } = await browser().get('/casualties', headers)
      expect(new URL(to, us()).href).toBe(`${us()}/sign-in?to=%2Fcasualties`)
    }
    expect((await browser().get('/api/events')).status).toBe(401)
  })

  it('ends with a password that she changes herself, but for the browser she changes it in', async () => {
    const [here, there] = [await signedIn(ODILE), await signedIn(ODILE)]
    const form = formWith((await here.get('/me')).html, ['oldPassword', 'newPassword'])
    if (form === undefined) throw new Error('no form on the page of her own')
    const anew = { oldPassword: PASSWORD, newPassword: 'nine white swans' }
    expect((await here.post('/me', filled(form, anew))).status).toBe(303)
    expect([await isIn(here), await isIn(there)]).toEqual([true, false])
    expect(await browser().signIn(ODILE, PASSWORD)).toBe(false)
  })
})

test('whoever is switched off hands over first, and is out of every page and stream within a minute', async () => {
  const [marit, administrator] = [await signedIn(MARIT), await signedIn(ADMINISTRATOR)]
  const [from, to] = [await idOf(MARIT), await idOf(EMRIK)]
  await ask(
    "insert into call_back (call_id, due_at, owner_id, what) select id, now(), $1, 'Still there?' from call limit 1",
    from,
  )
  const stream = await marit.open('/api/events')
  expect(stream.status).toBe(200)
  let hasEnded = false
  const reading = stream.body?.pipeTo(new WritableStream()).finally(() => (hasEnded = true))
  const path = `/setup/people/${from}`
  const switching = async (typed: Record<string, string>) => {
    const form = formWith((await administrator.get(path)).html, ['passTo', 'isActive'])
    if (form === undefined) throw new Error('nothing asks to whom what she owes goes')
    return administrator.post(path, filled(form, typed))
  }
  const refused = await switching({ passTo: '' })
  expect(refused.status).toBe(200)
  expect(decoded(refused.html)).toMatch(/Still to be passed on: .*call-back/)
  expect(await isIn(marit)).toBe(true)

  expect((await switching({ passTo: String(to) })).status).toBe(303)
  await until(() => hasEnded)
  await reading
  expect(await isIn(marit)).toBe(false)
  expect((await marit.get('/casualties')).to).toContain('/sign-in')
  expect(await browser().signIn(MARIT, PASSWORD)).toBe(false)
  const left = await ask('select from call_back where owner_id = $1 and done_at is null', from)
  expect(left).toEqual([])
})

test('a link for a password opens once, in time, and as it was made', async () => {
  const administrator = await signedIn(ADMINISTRATOR)
  const path = `/setup/people/${await idOf(JOSS)}`
  const makeLink = async () => {
    const form = formWith((await administrator.get(path)).html, ['id'], { without: 'version' })
    if (form === undefined) throw new Error('no way to make a link')
    const { html } = await administrator.post(path, filled(form, {}))
    const url = /value="(http[^"]+\/password\/[^"]+)"/.exec(html)?.[1]
    if (url === undefined) throw new Error('no link was shown')
    return new URL(url).pathname
  }
  const choose = async (at: string) => {
    const who = browser()
    const form = formWith((await who.get(at)).html, ['newPassword'])
    return { who, form, at }
  }
  const link = await makeLink()
  const [first, second] = [await choose(link), await choose(link)]
  if (first.form === undefined || second.form === undefined) throw new Error('the link opens nothing')
  await first.who.post(link, filled(first.form, { newPassword: 'a heron in the shallows' }))
  expect(await isIn(first.who)).toBe(true)

  // Replayed: the form that was open in another browser, and the address itself.
  const replayed = await second.who.post(
    link,
    filled(second.form, { newPassword: 'the password of a thief' }),
  )
  expect(replayed.html).toContain('This link was used already')
  expect(await isIn(second.who)).toBe(false)
  expect((await choose(link)).form).toBeUndefined()
  expect(await browser().signIn(JOSS, 'the password of a thief')).toBe(false)

  // Changed by a letter, and run out.
  const newer = await makeLink()
  const last = newer.at(-2) === 'A' ? 'B' : 'A'
  const guessed = await browser().get(`${newer.slice(0, -2)}${last}${newer.at(-1)}`)
  expect(guessed.status).toBe(404)
  const open = await choose(newer)
  if (open.form === undefined) throw new Error('the link opens nothing')
  await ask(
    "update one_time_link set made_at = now() - interval '2 days', expires_at = now() - interval '1 second' where used_at is null and revoked_at is null and person_id is not null",
  )
  const late = await open.who.post(newer, filled(open.form, { newPassword: 'the password of a thief' }))
  expect(late.html).toContain('This link ran out')
  expect(await isIn(open.who)).toBe(false)
})

/**
 * Every page, route and action of the running server, tried by every role and by nobody, over plain HTTP. What is there
 * comes from the tree and from the build; what each must answer from a literal table. A door without a row fails.
 */
import { readdirSync, readFileSync } from 'node:fs'
import { expect, test } from '@playwright/test'
import { call, cookieOf, listActions, post, read, sendForm } from '#tests/support/doors/knock.ts'
import { ACTIONS, DOORS, NOT_OURS, WRITES } from '#tests/support/doors/rows.ts'
import { clearSubjects, findPeople, prepareSubjects, type Subjects } from '#tests/support/doors/subjects.ts'
import {
  ADMINISTRATOR,
  COORDINATOR,
  HOSPITAL_CARER,
  MANAGER,
  VET,
  WARD_CARER,
} from '#tests/support/journey.ts'

const ROLES = [COORDINATOR, HOSPITAL_CARER, WARD_CARER, VET, MANAGER, ADMINISTRATOR]
const ELSEWHERE = 'https://elsewhere.example'

const opened = new Date()
let cookies: string[] = []
let subjects: Subjects = {}
let animals: string[] = []

test.beforeAll(async () => {
  cookies = await Promise.all((await findPeople(ROLES)).map(cookieOf))
  const found = await prepareSubjects()
  subjects = found.subjects
  animals = found.animals
  await handOver('vetsAnimal', 'practice')
  await handOver('otherVetsAnimal', 'otherPractice')
})
test.afterAll(() => clearSubjects(subjects, opened))

/** The coordinator gives an animal to a practice, so that a vet has a case of her own. */
async function handOver(animal: string, practice: string): Promise<void> {
  const { id } = listActions().find(({ name }) => name.endsWith(' handedOver'))!
  const fields = { casualtyId: subjects[animal]!, reference: 'x', keeper: `practice:${subjects[practice]}` }
  expect(await call(id, filled('/casualties/{inHospital}'), fields, { cookie: cookies[0] })).toBe('yes')
}

/** What stands in the tree under app/, by address. */
function listTree(): { pages: string[]; routes: string[] } {
  const files = readdirSync('app', { recursive: true, encoding: 'utf8' })
  const addressOf = (file: string) =>
    `/${file.replaceAll(/\([^)]+\)\//g, '')}`.replace(/\/?(page|route)\.tsx?$/, '')
  const routes = files
    .filter(file => /(^|\/)route\.ts$/.test(file))
    .flatMap(file =>
      ['GET', 'POST', 'PUT', 'PATCH', 'DELETE', 'HEAD', 'OPTIONS']
        .filter(method => exportsName(readFileSync(`app/${file}`, 'utf8'), method))
        .map(method => `${method} ${addressOf(file)}`),
    )
  const pages = files.filter(file => /(^|\/)page\.tsx$/.test(file)).map(file => addressOf(file) || '/')
  return { pages, routes }
}

const exportsName = (source: string, name: string) =>
  new RegExp(`export (const|async function|function) ${name}\\b|export \\{[^}]*\\b${name}\\b[^}]*\\}`).test(
    source,
  )

const filled = (text: string, more: Subjects = {}) =>
  text.replaceAll(/\{(\w+)\}/g, (_, name: string) => {
    const value = more[name] ?? subjects[name]
    if (value === undefined) throw new Error(`no row stands for {${name}}`)
    return value
  })

/** "to / 200" reads as two answers. */
const answersOf = (text: string) => text.match(/to \S+|\S+/g) ?? []

test('every door has a row, and every row a door', () => {
  const { pages, routes } = listTree()
  expect([...pages, ...routes].sort()).toEqual([...Object.keys({ ...DOORS, ...WRITES }), ...NOT_OURS].sort())
  expect(
    listActions()
      .map(({ name }) => name)
      .sort(),
  ).toEqual(Object.keys(ACTIONS).sort())
  for (const { answers } of Object.values({ ...DOORS, ...WRITES, ...ACTIONS }).flat()) {
    expect(answersOf(answers)).toHaveLength(ROLES.length)
  }
})

test('pages and routes answer each role as the table says', async () => {
  test.setTimeout(600_000)
  const wrong: string[] = []
  let tried = 0
  for (const { at, answers, nobody = 'to /sign-in' } of Object.values(DOORS).flat()) {
    const path = filled(at)
    const wanted = [...answersOf(filled(answers)), nobody]
    const got = await Promise.all([...cookies, undefined].map(cookie => read(path, { cookie })))
    tried += got.length
    if (String(got) !== String(wanted)) wrong.push(`${path}: ${got.join(' ')}, not ${wanted.join(' ')}`)
  }
  console.log(`doors: ${tried} readings of ${Object.keys(DOORS).length} pages and routes`)
  expect(wrong).toEqual([])
})

test('routes that write answer each role as the table says, and no other site', async () => {
  const wrong: string[] = []
  for (const { at, answers, nobody } of Object.values(WRITES).flat()) {
    const path = filled(at)
    const wanted = [...answersOf(answers), nobody]
    const got: string[] = []
    for (const cookie of [...cookies, undefined]) {
      got.push(String((await post(path, new FormData(), { cookie })).status))
    }
    if (String(got) !== String(wanted)) wrong.push(`${path}: ${got.join(' ')}, not ${wanted.join(' ')}`)
    const foreign = await post(path, new FormData(), { cookie: cookies[0], origin: ELSEWHERE })
    if (foreign.status !== 403) wrong.push(`${path} from another site: ${foreign.status}`)
  }
  for (const page of NOT_OURS) {
    const answer = await post(`${page.replace('POST ', '').replace(/\[.*/, '')}signout`, new FormData(), {
      cookie: cookies[0],
    })
    // Without its token next-auth only shows its way back.
    if (answer.headers.getSetCookie().some(text => /session-token=;/.test(text)))
      wrong.push(`${page} signed out`)
  }
  expect(wrong).toEqual([])
})

test('actions answer each role as the table says', async () => {
  test.setTimeout(600_000)
  const ids = new Map(listActions().map(({ name, id }) => [name, id]))
  const wrong: string[] = []
  let tried = 0
  for (const [name, rows] of Object.entries(ACTIONS)) {
    for (const { at, form, answers, nobody = '401', spends } of rows) {
      const wanted = [...answersOf(answers), nobody]
      const got: string[] = []
      for (const [nth, cookie] of [...cookies, undefined].entries()) {
        const own = spends && wanted[nth] === 'yes' ? { animal: animals.pop()! } : {}
        const fields = Object.fromEntries(
          Object.entries(form).map(([key, value]) => [key, filled(value, own)]),
        )
        got.push(await call(ids.get(name)!, filled(at), fields, { cookie }))
        tried++
      }
      if (String(got) !== String(wanted)) wrong.push(`${name}: ${got.join(' ')}, not ${wanted.join(' ')}`)
    }
  }
  // Signing out everywhere was among them.
  cookies = await Promise.all((await findPeople(ROLES)).map(cookieOf))
  console.log(`doors: ${tried} calls of ${ids.size} actions`)
  expect(wrong).toEqual([])
})

test('no action is taken from another site, by script or by form', async () => {
  const before = await countsOf()
  const wrong: string[] = []
  for (const { id, name, pages } of listActions()) {
    const row = ACTIONS[name]?.[0]
    if (row === undefined) continue
    const fields = Object.fromEntries(Object.entries(row.form).map(([key, value]) => [key, filled(value)]))
    const asked = { cookie: cookies[0], origin: ELSEWHERE }
    const byForm = await sendForm(id, filled(row.at), fields, asked)
    if (byForm.status < 400) wrong.push(`${name} by form: ${byForm.status} ${byForm.headers.get('location')}`)
    const body = new FormData()
    body.append('0', '[]')
    const byScript = await post(filled(row.at), body, { ...asked, action: id })
    if (byScript.status < 400) wrong.push(`${name} by script: ${byScript.status}, of ${pages.length} pages`)
  }
  expect(wrong).toEqual([])
  expect(await countsOf()).toEqual(before)
})

test('a form of a browser without JavaScript meets the same refusals', async () => {
  const ids = new Map(listActions().map(({ name, id }) => [name, id]))
  const noted = { casualtyId: subjects['animal']!, reference: 'x', words: 'Seen' }
  const sent = (cookie: string | undefined) =>
    sendForm(ids.get('(desk)/casualties noted')!, filled('/casualties/{inHospital}'), noted, { cookie })
  // The carer's own animal leads back to its card; another centre's card is not there, nor the form on it.
  expect((await sent(cookies[1])).status).toBe(303)
  expect((await sent(cookies[2])).status).toBe(404)
  expect(await (await sent(cookies[4])).text()).toContain('Your role does not allow this')
  expect((await sent(undefined)).headers.get('location')).toContain('/sign-in')
})

async function countsOf(): Promise<unknown> {
  const { default: pg } = await import('pg')
  const client = new pg.Client({ connectionString: process.env['DATABASE_URL'] })
  await client.connect()
  const { rows } = await client.query(
    `select (select count(*) from entry) as entries, (select count(*) from call) as calls, (select count(*) from audit) as audits`,
  )
  await client.end()
  return rows
}

/**
 * Every kind of page of the seeded network, with the person who reads it and what it must show to be the one meant.
 */
import type { Page } from '@playwright/test'
import type pg from 'pg'
import { newToken } from '#lib/service/link.ts'
import type { SetupNoun } from '#lib/web/paths.ts'
import { ADMINISTRATOR, COORDINATOR, HOSPITAL_CARER, VET } from '#tests/support/journey.ts'
import { judgedRun } from './judged-run.ts'
import { learnedStage } from './learned-stage.ts'

export type Records = <T extends pg.QueryResultRow>(sql: string, values?: readonly unknown[]) => Promise<T[]>

export type Kind = {
  readonly name: string
  readonly who?: string
  /** Its address, from the records where it names a row. */
  readonly at: (records: Records) => Promise<string>
  /** From there to the page, when it has no address beforehand. */
  readonly leadTo?: (page: Page) => Promise<void>
  /** So many of these at least: a page without its matter proves nothing. */
  readonly shows: string
  readonly atLeast?: number
  readonly status?: number
}

const at = (path: string) => async () => path

/** The one number that a query finds, in an address. */
const found = (before: string, sql: string) => async (records: Records) => {
  const [row] = await records<{ key: string | null }>(sql)
  if (row === undefined || row.key === null) throw new Error(`nothing for ${before}`)
  return before + encodeURIComponent(row.key)
}

const ANY_FACTS = `(select facts from call where facts ->> 'species' is not null order by id limit 1)`
const LARGEST = `select centre_id as key from enclosure where is_active group by centre_id order by count(*) desc limit 1`

const DESK: readonly Kind[] = [
  { name: 'calls', at: at('/calls'), shows: 'main button' },
  { name: 'new call', at: openCall("'{}'::jsonb"), shows: 'input[name="animalTyped"]' },
  {
    name: 'call with ranked options',
    at: openCall(ANY_FACTS),
    shows: '.option',
    atLeast: 4,
  },
  {
    name: 'answered call',
    at: openCall(ANY_FACTS),
    leadTo: page => page.getByRole('button', { name: 'Take option 1' }).click(),
    shows: '.shown li',
    atLeast: 4,
  },
  { name: 'who is where', at: at('/casualties'), shows: 'main tbody tr', atLeast: 20 },
  {
    name: 'casualty',
    at: found(
      '/casualties/',
      `select reference as key from casualty c join whereabouts w on w.casualty_id = c.id and w.until is null
        where w.enclosure_id is not null
        order by (select count(*) from check_due d where d.casualty_id = c.id and d.done_at is null) desc, c.id limit 1`,
    ),
    shows: 'main details.act',
    atLeast: 4,
  },
  { name: 'rounds', at: at('/round'), shows: 'main tbody tr', atLeast: 4 },
  { name: 'round', at: found('/round/', LARGEST), shows: '.cage', atLeast: 10 },
  {
    name: 'round as a list',
    at: async records => `${await found('/round/', LARGEST)(records)}?as=list`,
    shows: '.walk-line',
    atLeast: 10,
  },
  { name: 'weeks ahead', at: at('/weeks'), shows: 'main a[href^="/weeks/"]', atLeast: 4 },
  { name: 'weeks of a centre', at: found('/weeks/', LARGEST), shows: 'main svg' },
  { name: 'records of a stage', at: learnedStage, shows: 'main svg' },
  {
    name: 'records',
    at: async records => {
      await learnedStage(records)
      return '/records'
    },
    shows: 'main .records-list a',
  },
  {
    name: 'whether forecasts came true',
    at: async records => {
      await judgedRun(records)
      return '/records/came-true'
    },
    shows: '.scales svg',
    atLeast: 4,
  },
]

const NOUNS = {
  centres: 'select min(id) as key from centre',
  rooms: 'select min(id) as key from room',
  enclosures: 'select min(id) as key from enclosure',
  closures: 'select min(id) as key from closure',
  stops: 'select min(id) as key from movement_stop',
  practices: 'select min(id) as key from practice',
  drivers: 'select min(id) as key from driver',
  arrivals: `select min(centre_id || '.' || group_slug) as key from year_arrivals`,
  plans: 'select min(id) as key from care_plan',
  companies: 'select min(slug) as key from company',
  species: 'select min(slug) as key from species',
  groups: 'select min(slug) as key from species_group',
  conditions: 'select min(slug) as key from condition',
  rules: `select 'licence.' || min(key) as key from reference_key where kind = 'licence'`,
  seasons: `select min(species_slug || '.' || kind) as key from species_season`,
  places: 'select min(id) as key from gazetteer_place',
  people: 'select min(id) as key from person',
} satisfies Record<Exclude<SetupNoun, 'policy'>, string>

/** What the rows show that are read first and changed part by part. */
const READ_FIRST: Readonly<Record<string, string>> = {
  closures: 'main dl',
  stops: 'main dl',
  plans: '.plan-stages',
}

/** One person who is everything at a small centre. */
const ALL_ROLES = 'nettie.morrowby@roostwright.example'

const OWED: readonly Kind[] = [
  { name: 'moves', at: at('/moves'), shows: '#transfers' },
  {
    name: 'journey',
    at: found('/moves/', 'select min(id) as key from journey where ended_at is null'),
    shows: '.leg-one',
    atLeast: 2,
  },
  {
    name: 'drive to plan',
    at: found(
      '/moves/new?animal=',
      `select c.reference as key from casualty c join whereabouts w on w.casualty_id = c.id and w.until is null
        where w.enclosure_id is not null
          and not exists (select from journey_animal j where j.casualty_id = c.id and j.state = 'open') order by c.id limit 1`,
    ),
    shows: 'fieldset.leg',
    atLeast: 3,
  },
  {
    name: 'drive by link',
    at: linked(
      '/drive/',
      'leg',
      `select id from leg where state in ('planned', 'on the road') order by id limit 1`,
    ),
    shows: '#carry li',
  },
  { name: 'line', at: at('/line'), shows: '#passes' },
  { name: 'due of a coordinator', at: at('/due'), shows: '#coordinator' },
  { name: 'due of a carer', who: HOSPITAL_CARER, at: at('/due'), shows: '#carer tbody tr' },
  { name: 'due of a vet', who: VET, at: at('/due'), shows: '#vet' },
  {
    name: 'due of every role at once',
    who: ALL_ROLES,
    at: at('/due'),
    shows: 'main section[id]',
    atLeast: 3,
  },
  {
    name: 'ask',
    at: found('/asks/', `select min(id) as key from ask where state in ('put', 'unanswered')`),
    shows: 'main h1',
  },
  { name: 'own page', at: at('/me'), shows: 'input[type="password"]', atLeast: 2 },
]

const LINKED: readonly Kind[] = [
  { name: 'forgotten password', at: at('/sign-in/forgot'), shows: '#forgot' },
  {
    name: 'link to a password',
    at: linked('/password/', 'reset', `select id from person where email = '${ALL_ROLES}'`),
    shows: 'input[type="password"]',
  },
  {
    name: 'link to an ask of a centre',
    at: linked('/answer/', 'ask', asked('centre_id', '(select min(id) from centre)')),
    shows: 'main form button',
    atLeast: 2,
  },
  {
    name: 'link to an ask of a practice',
    at: linked('/answer/', 'ask', asked('practice_id', '(select min(id) from practice)')),
    shows: 'input[name="comesAt"]',
  },
  { name: 'link that leads nowhere', at: at(`/answer/${'x'.repeat(43)}`), shows: 'main h1' },
]

const SETUP: readonly Kind[] = [
  { name: 'setup', at: at('/setup'), shows: 'main a[href^="/setup/"]', atLeast: 8 },
  { name: 'setup policy', at: at('/setup/policy'), shows: 'form.setup-form' },
  ...Object.entries(NOUNS).flatMap(([noun, sql]) => [
    { name: `list of ${noun}`, at: at(`/setup/${noun}`), shows: `main a[href^="/setup/${noun}/"]` },
    {
      name: `form of ${noun}`,
      at: found(`/setup/${noun}/`, sql),
      shows: READ_FIRST[noun] ?? 'form.setup-form',
    },
  ]),
  {
    name: 'new stage of a plan',
    at: async records => `${await found('/setup/plans/', NOUNS.plans)(records)}?stage=new`,
    shows: 'form.setup-form',
  },
  {
    name: 'overdue rule',
    at: found(
      '/setup/rules/',
      "select 'licence.' || key as key from reference_key where kind = 'licence' order by reviewed_on limit 1",
    ),
    shows: '.say',
  },
  { name: 'walking order', at: found('/setup/walk/', LARGEST), shows: 'main ol.walk button', atLeast: 10 },
  { name: 'new group', at: at('/setup/groups/new'), shows: 'form.setup-form' },
  { name: 'import of places', at: at('/setup/places/import'), shows: 'input[type="file"]' },
  { name: 'new state of a site', at: at('/setup/stops/new'), shows: 'form.setup-form' },
  { name: 'new closure', at: at('/setup/closures/new'), shows: 'form.setup-form' },
]

export const KINDS: readonly Kind[] = [
  { name: 'front', at: at('/'), shows: 'main button' },
  { name: 'sign-in', at: at('/sign-in'), shows: 'input[type="password"]' },
  ...LINKED,
  ...OWED.map(kind => ({ who: COORDINATOR, ...kind })),
  ...DESK.map(kind => ({ who: COORDINATOR, ...kind })),
  ...SETUP.map(kind => ({ who: ADMINISTRATOR, ...kind })),
  { name: 'nowhere', who: COORDINATOR, at: at('/nowhere'), shows: 'main h1', status: 404 },
  {
    name: 'no such casualty',
    who: COORDINATOR,
    at: at('/casualties/Nobody%201'),
    shows: 'main h1',
    status: 404,
  },
  { name: 'not allowed', who: HOSPITAL_CARER, at: at('/setup'), shows: 'main h1', status: 403 },
]

/** An ask of its own, which nobody else answers. */
function asked(column: 'centre_id' | 'practice_id', value: string): string {
  return `insert into ask (casualty_id, ${column}, state, put_at, lapses_at)
    select casualty_id, ${value}, 'put', now(), now() + interval '1 day' from whereabouts
     where until is null and keeper = 'centre' order by casualty_id limit 1 returning id`
}

const LINK_COLUMN = { ask: 'ask_id', leg: 'leg_id', reset: 'person_id' } as const

/** A one-time link whose token only this test has; `about` finds what it is for. */
function linked(before: string, purpose: 'ask' | 'leg' | 'reset', about: string) {
  return async (records: Records) => {
    const [row] = await records<{ id: number }>(about)
    const { token, tokenHash } = newToken()
    await records(
      `insert into one_time_link (token_hash, purpose, ${LINK_COLUMN[purpose]}, made_at, expires_at)
       values ($1, $2, $3, now(), now() + interval '1 hour')`,
      [tokenHash, purpose, row!.id],
    )
    return before + token
  }
}

function openCall(facts: string) {
  return found(
    '/calls/',
    `insert into call (opened_at, state, facts) select now(), 'open', ${facts} returning id as key`,
  )
}

/** Ends the calls that these pages opened, and their asks; a call that was answered stays. */
export async function endCalls(records: Records, since: number): Promise<void> {
  await records(
    `update ask set state = 'taken-back' where state = 'put' and decision_id is null and referral_id is null
        and casualty_id in (select casualty_id from whereabouts where until is null and keeper = 'centre')`,
  )
  await records("delete from call where id > $1 and state = 'open'", [since])
}

export async function lastCall(records: Records): Promise<number> {
  const [row] = await records<{ id: number }>('select coalesce(max(id), 0) as id from call')
  return row!.id
}

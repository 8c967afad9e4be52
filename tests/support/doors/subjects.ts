/**
 * The rows of the seeded network that the doors are tried on, and a few of the test's own: a call, a call-back, a kept
 * place. Takes its own calls away again.
 */
import pg from 'pg'
import { newToken } from '#lib/service/link.ts'
import { surroundings } from '#tests/support/session.ts'

export type Subjects = Readonly<Record<string, string>>

/** The names in braces of tests/support/doors/rows.ts with what stands for each. */
export async function prepareSubjects(): Promise<{ subjects: Subjects; animals: string[] }> {
  return connected(async ask => {
    const [network] = await ask<Record<string, string | number>>(`
      select (select id from centre where name = 'Averbrook Wildlife Hospital') as hospital,
             (select id from centre where name = 'Withenholt Bird Ward') as ward,
             (select id from practice where name = 'Quarrow Bridge Veterinary Centre') as practice,
             (select id from practice where name = 'Rookhythe Vets') as "otherPractice",
             (select min(id) from driver) as driver,
             (select id from person where email = 'odile.brackenray@roostwright.example') as person,
             (select min(id) from room) as room, (select min(id) from enclosure) as enclosure,
             (select min(id) from closure) as closure, (select min(id) from movement_stop) as stop,
             (select min(slug) from company) as company, (select min(slug) from species) as species,
             (select min(slug) from species_group) as "group", (select min(slug) from condition) as condition,
             (select min(id) from gazetteer_place) as place, (select min(id) from care_plan) as plan,
             (select min(centre_id || '.' || group_slug) from year_arrivals) as arrivals`)
    const { hospital, ward } = network!
    const inHospital = await animalsOf(ask, hospital)
    const [own, vets, otherVets, ...animals] = inHospital
    const [warden] = await animalsOf(ask, ward)
    const [call] = await ask<{ id: number }>(`
      insert into call (opened_at, state, facts) select now(), 'open', facts from call
        where facts ->> 'species' is not null order by id limit 1 returning id`)
    const [otherCall] = await ask<{ id: number }>(
      `insert into call (opened_at, state, facts) select now(), 'open', facts from call where id = $1 returning id`,
      [call!.id],
    )
    const [callBack] = await ask<{ id: number }>(
      `insert into call_back (call_id, due_at, owner_id, what) select $1, now(), id, 'Still quiet?' from person limit 1
        returning id`,
      [call!.id],
    )
    const [check] = await ask<{ id: number }>(
      `select coalesce(min(id), 0) as id from check_due where casualty_id = $1 and done_at is null`,
      [own!.id],
    )
    const [surgery] = await ask<{ id: number }>(
      `insert into surgery (entry_id, casualty_id, at, side, what)
       select min(id), $1, now(), 'left', 'Ulna pinned' from entry returning id`,
      [own!.id],
    )
    const vetWords = await ask<{ id: number }>(
      `insert into vet_word (entry_id, casualty_id, stage_no, at, in_days, said_by)
       select (select min(id) from entry), id, 1, now(), 14, 'The test of the doors' from unnest($1::int[]) id returning id`,
      [[own!.id, vets!.id]],
    )
    const [weight] = await ask<{ id: number }>(
      `insert into weight (entry_id, casualty_id, at, grams) select min(id), $1, now(), 100 from entry returning id`,
      [own!.id],
    )
    const [picture] = await ask<{ id: number }>(
      `insert into attachment (entry_id, casualty_id, kind, at, words, digest)
       select min(id), $1, 'photograph', now(), 'The test of the doors', repeat('0', 64) from entry returning id`,
      [own!.id],
    )
    await ask(
      `insert into attachment_image values ($1, 'whole', 2, 2, '\\x524946460000000057454250'),
                                           ($1, 'thumbnail', 2, 2, '\\x524946460000000057454250')`,
      [picture!.id],
    )
    const [release] = await ask<{ id: number }>(
      `with made as (insert into release (at, site, way, releaser) values (now(), 'Heskwith wood', 'hard', 'Somebody') returning id)
       insert into release_animal (release_id, casualty_id) select id, $1 from made returning release_id as id`,
      [own!.id],
    )
    const [keeping] = await ask<{ id: number }>(
      'select keeping_id as id from whereabouts where casualty_id = $1 and until is null',
      [own!.id],
    )
    const [overStop] = await ask<{ id: number }>(
      `insert into movement_stop (centre_id, site_state, starts_at, ends_at, reason)
        values ($1, 'isolation-full', '2020-01-01', '2020-01-02', 'The test of the doors') returning id`,
      [ward],
    )
    const asked = await putAsk(ask, own!.id, hospital)
    const road = await planRoad(ask, ward)
    const [transfer] = await ask<{ id: number }>(
      `insert into transfer (casualty_id, from_centre_id, to_centre_id, state, reason, proposed_at, expected_at, lapses_at, ended_at)
       values ($1, $2, $3, 'arrived', 'by-hand', now() - interval '3 hours', now() - interval '2 hours', now() - interval '1 hour', now())
       returning id`,
      [own!.id, hospital, ward],
    )
    const [aside] = await ask<{ id: number }>(
      `insert into move_aside (casualty_id, to_centre_id, at, reason, keeping_id, taken_up_at)
       values ($1, $2, now(), 'settled here', $3, now()) returning id`,
      [own!.id, ward, keeping!.id],
    )
    const [line] = await ask<{ id: number }>(
      `with made as (insert into batch (arrival_id) select arrival_id from casualty where id = $1 returning id)
       insert into membership (entry_id, casualty_id, kind, batch_id, member_no)
       select (select max(id) from entry), $1, 'joined', id, 1 from made returning id`,
      [own!.id],
    )
    const found = {
      line: line!.id,
      aside: aside!.id,
      ...road,
      transfer: transfer!.id,
      ...asked,
      ...network,
      overStop: overStop!.id,
      inHospital: encodeURIComponent(own!.reference),
      inWard: encodeURIComponent(warden!.reference),
      withVet: encodeURIComponent(vets!.reference),
      withOtherVet: encodeURIComponent(otherVets!.reference),
      animal: own!.id,
      vetsAnimal: vets!.id,
      otherVetsAnimal: otherVets!.id,
      call: call!.id,
      otherCall: otherCall!.id,
      callBack: callBack!.id,
      check: check!.id,
      surgery: surgery!.id,
      vetWord: vetWords[0]!.id,
      vetsWord: vetWords[1]!.id,
      release: release!.id,
      weight: weight!.id,
      picture: picture!.id,
      keeping: keeping!.id,
      hold: await keepPlace(ask, own!.id, hospital),
      dayAhead: Math.floor(Date.now() / 86_400_000) + 3,
    }
    const subjects = Object.fromEntries(Object.entries(found).map(([name, value]) => [name, String(value)]))
    return { subjects, animals: animals.map(({ id }) => String(id)) }
  })
}

/** Ends the calls that the test opened. */
export async function clearSubjects(
  { call, otherCall, overStop, ask: asked, journey, transfer }: Subjects,
  opened: Date,
): Promise<void> {
  await connected(async ask => {
    await ask('delete from movement_stop where id = $1', [overStop])
    await ask('delete from call_back where call_id = $1', [call])
    // What was decided about two calls stays, and so do they; answered, they wait for nobody.
    await ask(`update call set state = 'closed', closed_at = now(), parked_at = null where id in ($1, $2)`, [
      call,
      otherCall,
    ])
    await ask('delete from one_time_link where leg_id in (select id from leg where journey_id = $1)', [
      journey,
    ])
    await ask('delete from leg where journey_id = $1', [journey])
    await ask('delete from journey where id = $1', [journey])
    await ask('delete from transfer where id = $1', [transfer])
    await ask('delete from one_time_link where ask_id = $1', [asked])
    await ask('delete from ask where id = $1', [asked])
    await ask(
      `delete from call where opened_at >= $1 and state = 'open' and facts ->> 'animalTyped' = '' and not exists (
         select from call_pair where call.id in (first_id, second_id))`,
      [opened],
    )
  })
}

/** People of the seeded network by e-mail. */
export async function findPeople(emails: readonly string[]): Promise<{ id: number; epoch: number }[]> {
  return connected(ask =>
    ask<{ id: number; epoch: number }>(
      'select id, session_epoch as epoch from person where email = any($1) order by array_position($1, email)',
      [emails],
    ),
  )
}

type Ask = <T extends pg.QueryResultRow>(sql: string, values?: readonly unknown[]) => Promise<T[]>

/** With what a check and a kept place can be tried on first. */
function animalsOf(ask: Ask, centre: unknown): Promise<{ id: number; reference: string }[]> {
  return ask(
    `select c.id, c.reference from whereabouts w join casualty c on c.id = w.casualty_id
      where w.until is null and w.centre_id = $1 and w.enclosure_id is not null
      order by exists (select from check_due d where d.casualty_id = c.id and d.done_at is null) desc, c.id`,
    [centre],
  )
}

/** The hospital is asked about an animal, with a link whose token only this test has. */
async function putAsk(ask: Ask, casualty: number, centre: unknown) {
  const { token, tokenHash } = newToken()
  const [put] = await ask<{ id: number }>(
    `insert into ask (casualty_id, centre_id, state, put_at, lapses_at)
     values ($1, $2, 'put', now(), now() + interval '1 day') returning id`,
    [casualty, centre],
  )
  await ask(
    `insert into one_time_link (token_hash, purpose, ask_id, made_at, expires_at)
     values ($1, 'ask', $2, now(), now() + interval '1 day')`,
    [tokenHash, put!.id],
  )
  return { ask: put!.id, token }
}

/** A journey with one leg and a link whose token only this test has. */
async function planRoad(ask: Ask, centre: unknown) {
  const { token, tokenHash } = newToken()
  const [journey] = await ask<{ id: number }>(
    'insert into journey (to_centre_id, made_at) values ($1, now()) returning id',
    [centre],
  )
  const [leg] = await ask<{ id: number }>(
    `insert into leg (journey_id, leg_no, driver_id, from_words, to_words, pick_up_at, due_at)
     select $1, 1, min(id), 'The quay', 'The ward', now() + interval '1 hour', now() + interval '2 hours' from driver
     returning id`,
    [journey!.id],
  )
  await ask(
    `insert into one_time_link (token_hash, purpose, leg_id, made_at, expires_at)
     values ($1, 'leg', $2, now(), now() + interval '1 day')`,
    [tokenHash, leg!.id],
  )
  return { journey: journey!.id, leg: leg!.id, driveToken: token }
}

async function keepPlace(ask: Ask, casualty: number, centre: unknown): Promise<number> {
  const [before] = await ask<{ id: number }>(
    `select id from claim where kind = 'hold' and state = 'live' and casualty_id = $1`,
    [casualty],
  )
  if (before !== undefined) return before.id
  const free = await ask<{ id: number }>(
    `select e.id from enclosure e where e.centre_id = $1 and e.is_active
        and not exists (select from claim k where k.enclosure_id = e.id and k.state = 'live') order by e.id`,
    [centre],
  )
  for (const { id } of free) {
    try {
      const [kept] = await ask<{ id: number }>(
        `select plan_hold($1, $2, null, now(), null, now() + interval '1 hour', now() + interval '9 hours', false, null, now()) as id`,
        [casualty, id],
      )
      return kept!.id
    } catch {
      // Not for this animal: the next.
    }
  }
  throw new Error('no enclosure of the hospital is free for a kept place')
}

async function connected<T>(work: (ask: Ask) => Promise<T>): Promise<T> {
  const client = new pg.Client({ connectionString: surroundings('DATABASE_URL') })
  await client.connect()
  try {
    return await work(async (sql, values = []) => (await client.query(sql, [...values])).rows)
  } finally {
    await client.end()
  }
}

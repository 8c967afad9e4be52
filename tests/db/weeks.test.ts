import { parse } from 'csv-parse/sync'
import { beforeAll, describe, expect, it } from 'vitest'
import { type PersonActor, systemActor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { findRun, type LearnedStageRow, publishRun } from '#lib/db/learned.ts'
import type { CallFacts } from '#lib/domain/call-facts.ts'
import { dateOfDay } from '#lib/domain/day.ts'
import type { HousingType } from '#lib/domain/housing.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { animalsOf } from '#lib/plan/newcomers.ts'
import { openCall } from '#lib/service/call.ts'
import { readCasualty } from '#lib/service/casualty.ts'
import { closeEnclosure } from '#lib/service/closure.ts'
import { readTonight, type Tonight } from '#lib/service/network.ts'
import { answerCall, answerFrom } from '#lib/service/option.ts'
import { takeOption } from '#lib/service/take-option.ts'
import { readWeeks, readWeeksOfCentre } from '#lib/service/weeks.ts'
import { exportWeeks } from '#lib/service/weeks-csv.ts'
import type { Eased } from '#lib/service/weeks-ease.ts'
import type { Ease } from '#lib/words/weeks-why.ts'
import { seedAll } from '#seed/all.ts'
import { database } from '#tests/support/database.ts'
import { learnedRows, learningRun } from '#tests/support/learned-rows.ts'

const NOW = new Date('2026-11-25T20:40:00Z')
const { pool } = database
const rows = async (text: string, values: unknown[] = []) => (await pool.query(text, values)).rows

let coordinator: PersonActor
let carer: PersonActor
let carersCentre = 0

beforeAll(async () => {
  const client = await pool.connect()
  await seedAll(client, NOW)
  client.release()
  const [desk] = await rows(
    `select person_id as id from person_role where role = 'coordinator' order by id limit 1`,
  )
  const [own] = await rows(
    `select person_id as id, centre_id from person_role where role = 'carer' order by id limit 1`,
  )
  carersCentre = own.centre_id
  coordinator = { kind: 'person', personId: desk.id, name: 'A', roles: [{ role: 'coordinator' }] }
  carer = { kind: 'person', personId: own.id, name: 'B', roles: [{ role: 'carer', centreId: carersCentre }] }
}, 600_000)

const inAll = async () => (await readWeeks(coordinator, {}, NOW))?.inAll.placeDays ?? Number.NaN

/** Takes the first option that admits without asking and gives what it said and what the weeks then show. */
async function takeFirstAdmission(callId: number) {
  const [call] = await rows('select facts from call where id = $1', [callId])
  const { ranked } = await answerCall(coordinator, call.facts, NOW)
  const option = ranked?.options.find(one => one.kind.startsWith('admit') && one.askFirst === null)
  if (option === undefined) throw new Error('no option admits')
  const before = await inAll()
  const places = option.placesTonight.length
  const { references } = await takeOption(
    coordinator,
    callId,
    { key: option.key, places: String(places) },
    NOW,
  )
  return { option, references, rise: (await inAll()) - before }
}

describe('the places that an answer stands on', () => {
  it('are those of the hour of coming: one that dries until then counts, one held from then on does not', async () => {
    const [waiting] = await rows(`select facts from call where state = 'parked' order by id limit 1`)
    const tonight = await readTonight(NOW)
    const answered = (claims: typeof tonight.state.claims) =>
      answerFrom(
        demand(coordinator, 'call.read'),
        { ...tonight, state: { ...tonight.state, claims } },
        waiting.facts,
        NOW,
      )
    const asItIs = answered(tonight.state.claims)
    const option = asItIs.ranked?.options.find(one => one.kind === 'admit')
    const centre = option?.to?.name ?? ''
    const [place] = option?.placesTonight ?? []
    const claim = {
      ...tonight.state.claims[0]!,
      enclosureId: Number(place?.enclosureId),
      placeNo: place?.placeNo ?? 0,
      startsAt: NOW,
    }
    const until = (endsAt: Date | null) => [...tonight.state.claims, { ...claim, endsAt }]
    const free = asItIs.standing?.places[centre] ?? 0
    expect(free).toBeGreaterThan(0)
    expect(answered(until(new Date(NOW.getTime() + 60_000))).standing?.places[centre]).toBe(free)
    expect(answered(until(null)).standing?.places[centre]).toBeLessThan(free)
  })
})

describe('taking an option', () => {
  it('raises the place-days short over all classes by what the option said', async () => {
    const [waiting] = await rows(`select id from call where state = 'parked' order by id limit 1`)
    const { option, references, rise } = await takeFirstAdmission(waiting.id)
    expect(references).toHaveLength(1)
    expect(option.addedShortage.withinHorizon).toBeGreaterThan(0)
    expect(rise).toBeCloseTo(option.addedShortage.withinHorizon, 6)
    const [stop] = option.path
    const weeks = await readWeeksOfCentre(
      coordinator,
      Number(stop?.centre.id),
      { housing: stop?.housing, days: 14 },
      NOW,
    )
    expect(weeks.full?.needers.all.map(one => one.reference)).toContain(references[0])
  })

  it('does so for several animals of one arrival', async () => {
    const callId = await openCall(coordinator, NOW)
    await pool.query(
      `update call set facts = (select facts || '{"count": 3}' from call where facts->>'species' is not null
         and facts->>'where' is not null and state = 'closed' and facts->>'isCaught' = 'true' order by id limit 1)
        where id = $1`,
      [callId],
    )
    const { option, references, rise } = await takeFirstAdmission(callId)
    expect(references).toHaveLength(3)
    expect(rise).toBeCloseTo(option.addedShortage.withinHorizon, 6)
  })
})

describe('past nights', () => {
  it('are the enclosures that held an animal at each midnight, and end with the last one', async () => {
    const [busy] = await rows(
      `select e.centre_id, e.housing_type from whereabouts w join enclosure e on e.id = w.enclosure_id
        where w.until is null group by 1, 2 order by count(*) desc limit 1`,
    )
    const asked = { housing: busy.housing_type, days: '14' }
    const { full } = await readWeeksOfCentre(coordinator, busy.centre_id, asked, NOW)
    expect(full?.fan.past).toHaveLength(28)
    // London keeps UTC in November, so its last midnight is this one.
    const at = (night: string) =>
      rows(
        `select count(distinct w.enclosure_id)::int as n from whereabouts w join enclosure e on e.id = w.enclosure_id
          where e.centre_id = $1 and e.housing_type = $2 and tstzrange(w.since, w.until) @> $3::timestamptz`,
        [busy.centre_id, busy.housing_type, night],
      )
    expect(full?.fan.past.at(-1)).toBe((await at('2026-11-25T00:00:00Z'))[0].n)
    expect(full?.fan.past[0]).toBe((await at('2026-10-29T00:00:00Z'))[0].n)
    expect(full?.fan.past.at(-1)).toBeGreaterThan(0)
  })

  it('count two animals in one enclosure once', async () => {
    const [shared] = await rows(
      `select e.centre_id, e.housing_type, count(*)::int as animals, count(distinct e.id)::int as enclosures
         from whereabouts w join enclosure e on e.id = w.enclosure_id
        where tstzrange(w.since, w.until) @> timestamptz '2026-11-25T00:00:00Z' and e.housing_type <> 'isolation'
        group by 1, 2 having count(*) > count(distinct e.id) order by 1, 2 limit 1`,
    )
    expect(shared.animals).toBeGreaterThan(shared.enclosures)
    const asked = { housing: shared.housing_type }
    const { full } = await readWeeksOfCentre(coordinator, shared.centre_id, asked, NOW)
    expect(full?.fan.past.at(-1)).toBe(shared.enclosures)
  })

  it('show capacity as closures made it, each change with its reason', async () => {
    const [shut] = await rows(
      `select e.centre_id, e.housing_type, e.name, x.starts_at::date - date '1970-01-01' as day
         from closure_effect x join enclosure e on e.id = x.enclosure_id where x.starts_at <= $1 limit 1`,
      [NOW],
    )
    const { full } = await readWeeksOfCentre(coordinator, shut.centre_id, { housing: shut.housing_type }, NOW)
    const [first, closing, opening] = full?.fan.capacity ?? []
    expect(closing?.fromDay).toBe(shut.day)
    expect(closing?.places).toBe((first?.places ?? 0) - 1)
    expect(closing?.reason).toContain(`${shut.name} shut: `)
    expect(opening?.places).toBe(first?.places)
    expect(opening?.reason).toBe(`${shut.name} open again`)
    expect(full?.shut.map(({ enclosure }) => enclosure)).toContain(shut.name)
  })
})

describe('what would ease a class', () => {
  const inFull = async (centreId: number, housing: HousingType) => {
    const { full } = await readWeeksOfCentre(coordinator, centreId, { housing }, NOW)
    if (full === undefined) throw new Error('the class is gone')
    return full
  }
  const tightestNow = async () => {
    const tightest = (await readWeeks(coordinator, {}, NOW))?.tightest
    if (tightest === undefined) throw new Error('nothing was set up')
    return tightest
  }
  const easingOf = (kind: Ease['kind'], easings: readonly Eased[]) => {
    const found = easings.find(({ ease }) => ease?.kind === kind)
    if (found?.ease?.kind !== kind) throw new Error(`nothing of the kind ${kind} is offered`)
    return found
  }

  it('stands in the order of what it changes, and leaving it last', async () => {
    const tightest = await tightestNow()
    const { easings } = await inFull(tightest.centreId, tightest.housing)
    const changes = easings.map(({ change }) => change)
    expect(changes.length).toBeGreaterThan(1)
    expect(changes).toEqual(changes.toSorted((a, b) => a - b))
    expect(changes.slice(0, -1).every(change => change < 0)).toBe(true)
    expect(easings.at(-1)).toMatchObject({ ease: null, change: 0, shortHere: tightest.placeDaysShort })
  })

  it('is what happens when a waiting animal is planned elsewhere', async () => {
    // A stricter policy makes more classes tight, so that some journey is sure to be offered.
    await pool.query('update policy set tight_chance = 0.001')
    await pool.query('update network set revision = revision + 1')
    const before = await inAll()
    const offered: { centreId: number; housing: HousingType; eased: Eased }[] = []
    for (const { centreId, housing, tightDays } of (await readWeeks(coordinator, {}, NOW))?.classes ?? []) {
      if (tightDays === 0) continue
      const { easings } = await inFull(centreId, housing)
      offered.push(...easings.map(eased => ({ centreId, housing, eased })))
    }
    const journey = offered.find(({ eased }) => eased.ease?.kind === 'elsewhere')
    if (journey?.eased.ease?.kind !== 'elsewhere') throw new Error('no journey is offered')
    const [stop] = await rows(
      `select c.name, m.covers_class from movement_stop m join centre c on c.id = m.centre_id where m.ends_at is null`,
    )
    const journeys = offered.flatMap(({ eased: { ease } }) => (ease?.kind === 'elsewhere' ? [ease] : []))
    const into = journeys.filter(({ centre }) => centre === stop.name).map(({ reference }) => reference)
    const covered = await rows(
      `select c.reference from casualty c join species s on s.slug = c.species_slug
         join whereabouts w on w.casualty_id = c.id and w.until is null left join centre h on h.id = w.centre_id
        where s.class = $1 and (c.reference = any ($2) or (h.name = $3 and c.reference = any ($4)))`,
      [stop.covers_class, into, stop.name, journeys.map(({ reference }) => reference)],
    )
    expect(covered).toEqual([])
    const { centreId, housing, eased: found } = journey
    const { rowCount } = await pool.query(
      `update casualty_stage s set centre_id = (select id from centre where name = $3)
         from casualty_plan p join casualty c on c.id = p.casualty_id
        where s.casualty_plan_id = p.id and c.reference = $1 and c.given_on > '2025-06-01' and s.housing_type = $2`,
      [journey.eased.ease.reference, housing, journey.eased.ease.centre],
    )
    expect(rowCount).toBeGreaterThan(0)
    await pool.query('update network set revision = revision + 1')
    expect(await inAll()).toBeCloseTo(before + found.change, 6)
    expect((await inFull(centreId, housing)).shown.placeDaysShort).toBeCloseTo(found.shortHere, 6)
    await pool.query('update policy set tight_chance = 0.2')
    await pool.query('update network set revision = revision + 1')
  })

  it('is what happens when an enclosure more is built', async () => {
    const { centreId, housing } = await tightestNow()
    const before = await inAll()
    const found = easingOf('one more', (await inFull(centreId, housing)).easings)
    const { ease } = found
    if (ease?.kind !== 'one more') throw new Error('not an enclosure')
    const [like] = await rows(
      `select id from enclosure where centre_id = $1 and housing_type = $2 and is_active and size_rank = $3 limit 1`,
      [centreId, housing, ease.size],
    )
    await pool.query(
      `with made as (
         insert into enclosure (room_id, centre_id, name, housing_type, size_rank, width_m, length_m, height_m,
             features, turnaround_min, dries_after, walking_order)
         select room_id, centre_id, 'One more', housing_type, size_rank, width_m, length_m, height_m,
             features, turnaround_min, dries_after, 9999 from enclosure where id = $1 returning id)
       insert into stocking (enclosure_id, company_slug, places)
       select made.id, s.company_slug, s.places from made, stocking s where s.enclosure_id = $1`,
      [like.id],
    )
    await pool.query('update network set revision = revision + 1')
    expect(await inAll()).toBeCloseTo(before + found.change, 6)
  })

  it('is what happens when a closure ends earlier', async () => {
    const [{ id: enclosureId, centre_id: centreId }] = await rows(
      `select id, centre_id from enclosure where name = 'One more'`,
    )
    const manager: PersonActor = { ...coordinator, roles: [{ role: 'manager' }] }
    const { housing } = await tightestHere(centreId)
    const closing = { startsAt: '2026-11-25T08:00', endsAt: '2026-12-30T08:00', reason: 'Liner leaks' }
    const { made: closureId } = await closeEnclosure(manager, enclosureId, closing, NOW)
    const before = await inAll()
    const full = await inFull(centreId, housing)
    const tomorrow = full.easings.find(({ ease }) => ease?.kind === 'open' && ease.instead !== null)
    const later = full.easings.filter(({ ease }) => ease?.kind === 'open')
    expect(later.map(({ ease }) => (ease?.kind === 'open' ? dateOfDay(ease.on) : ''))).toEqual([
      '2026-11-26',
      '2026-12-23',
    ])
    expect(full.notes.flatMap(({ why }) => [...why.shuts, ...why.stillShut])).toContain('One more')
    await pool.query(`update closure set ends_at = '2026-11-26T00:00:00Z' where id = $1`, [closureId])
    await pool.query('update network set revision = revision + 1')
    expect(await inAll()).toBeCloseTo(before + (tomorrow?.change ?? Number.NaN), 6)
  })

  const tightestHere = async (centreId: number) => {
    const { full } = await readWeeksOfCentre(coordinator, centreId, {}, NOW)
    if (full === undefined) throw new Error('the centre has nothing')
    return full.shown
  }
})

describe('who may see it', () => {
  it('is a carer for own centres only', async () => {
    const shown = await readWeeks(carer, {}, NOW)
    expect(new Set(shown?.classes.map(({ centreId }) => centreId))).toEqual(new Set([carersCentre]))
    expect(shown?.inAll.isNetwork).toBe(false)
    expect(shown?.inAll.placeDays).toBeLessThan(await inAll())
    const [other] = await rows('select id from centre where id <> $1 limit 1', [carersCentre])
    await expect(readWeeksOfCentre(carer, other.id, {}, NOW)).rejects.toThrow(Failure)
    await expect(readWeeksOfCentre(carer, carersCentre, {}, NOW)).resolves.toBeDefined()
  })

  it('is refused for days and housing that are none, and for a centre that is not there', async () => {
    await expect(readWeeks(coordinator, { days: '15' }, NOW)).rejects.toMatchObject({ code: 'invalid' })
    const asked = readWeeksOfCentre(coordinator, carersCentre, { housing: 'castle' }, NOW)
    await expect(asked).rejects.toMatchObject({ code: 'invalid' })
    await expect(readWeeksOfCentre(coordinator, 99_999, {}, NOW)).rejects.toMatchObject({ code: 'not-found' })
  })

  it('is told of a centre without that housing, and who has it', async () => {
    const [lacks] = await rows(
      `select c.id from centre c where not exists (select from enclosure e where e.centre_id = c.id and e.housing_type = 'pool-pen') limit 1`,
    )
    const weeks = await readWeeksOfCentre(coordinator, lacks.id, { housing: 'pool-pen' }, NOW)
    expect(weeks.full).toBeUndefined()
    expect(weeks.housing).toBe('pool-pen')
    expect(weeks.elsewhere.length).toBeGreaterThan(0)
    expect(weeks.elsewhere.map(({ id }) => id)).not.toContain(lacks.id)
  })
})

describe('the table as a file', () => {
  it('adds up to what the page says', async () => {
    const { csv } = await exportWeeks(coordinator, { days: 180 }, NOW)
    const read = parse(csv, { columns: true }) as Record<string, string>[]
    const sum = read.reduce((total, row) => total + Number(row['place-days short']), 0)
    expect(sum).toBeCloseTo(await inAll(), 9)
  })

  it('has one class day by day, with the chances of the forecast', async () => {
    const { basis, forecast } = await readTonight(NOW)
    const [one] = basis.pools.all
    if (one === undefined) throw new Error('nothing was set up')
    const query = { days: 14, centre: Number(one.centreId), housing: one.housing } as const
    const { csv, filename } = await exportWeeks(coordinator, query, NOW)
    const read = parse(csv, { columns: true }) as Record<string, string>[]
    expect(read).toHaveLength(14)
    expect(read[0]?.['date']).toBe('2026-11-25')
    expect(filename).toContain(one.housing)
    expect(forecast.demands.has(one.id)).toBe(true)
    for (const row of read) expect(Number(row['chance of being short'])).toBeLessThanOrEqual(1)
  })

  it('needs the right to export', async () => {
    const asked = exportWeeks(carer, { days: 14, centre: carersCentre }, NOW)
    await expect(asked).rejects.toMatchObject({ code: 'forbidden' })
  })
})

describe('what records say of stages', () => {
  const grant = demand(systemActor('test'), 'system.run')
  const publish = async (stages: readonly LearnedStageRow[]) =>
    publishRun(
      grant,
      learningRun(NOW),
      { stages, arrivals: [], doubts: [] },
      (await findRun(grant))?.id ?? null,
    )
  const rowsOf = ({ state, trade }: Tonight, facts: CallFacts, times: number) =>
    learnedRows(state.residents, animalsOf(facts, trade, 11)!.plan, times)
  const factsOfOne = async (): Promise<CallFacts> => {
    const found = await rows(
      `select facts from call where facts->>'species' is not null and facts->>'where' is not null order by id limit 1`,
    )
    return found[0].facts
  }
  const seen = async (facts: CallFacts) => {
    const tonight = await readTonight(NOW)
    const { ranked } = await answerCall(coordinator, facts, NOW)
    return { tonight, short: await inAll(), out: ranked?.options[0]?.release?.q50 ?? 0 }
  }

  it('of a stage that nobody goes through changes nothing', async () => {
    const facts = await factsOfOne()
    const before = await seen(facts)
    const row = rowsOf(before.tonight, facts, 1.5)[0]!
    await publish([{ ...row, key: 'nobody|1' }])
    const after = await seen(facts)
    // Compared outside: what the runner would write of two whole networks takes it a quarter of a minute.
    expect(after.tonight === before.tonight).toBe(false)
    expect([after.short, after.out]).toEqual([before.short, before.out])
    const ways = [...before.tonight.basis.itineraryById]
    expect(ways.every(([id, way]) => after.tonight.basis.itineraryById.get(id) === way)).toBe(true)
  })

  it('1.5 times the plan: the cards, the weeks and the options follow, without anybody touching them', async () => {
    const facts = await factsOfOne()
    const before = await seen(facts)
    const [resident] = before.tonight.state.residents.filter(
      ({ id, stages }) =>
        stages.length > 2 &&
        stages.every(({ estimate }) => estimate.ready.kind === 'length') &&
        before.tonight.basis.itineraryById.get(id)?.isReady === false,
    )
    const lastEnd = async () => {
      const { ribbon } = await readCasualty(coordinator, resident!.reference, {}, NOW)
      return ribbon?.stages.at(-1)?.end.median ?? 0
    }
    const was = await lastEnd()
    await publish(rowsOf(before.tonight, facts, 1.5))
    const after = await seen(facts)
    expect(await lastEnd()).toBeGreaterThan(was)
    expect(after.short).toBeGreaterThan(before.short)
    expect(after.out).toBeGreaterThan(before.out)
    const way = after.tonight.basis.itineraryById.get(resident!.id)
    expect(way?.stages.every(({ estimate }) => estimate.learned !== undefined)).toBe(true)
  })

  it('as long as the plan gives the forecast of the plans', async () => {
    const facts = await factsOfOne()
    const { tonight } = await seen(facts)
    await publish([])
    const planned = await seen(facts)
    await publish(rowsOf(tonight, facts, 1))
    const learned = await seen(facts)
    expect(learned.tonight.basis.itineraryById.size).toBe(planned.tonight.basis.itineraryById.size)
    expect(learned.short).toBeCloseTo(planned.short, 6)
    expect(learned.out).toBe(planned.out)
  })
})

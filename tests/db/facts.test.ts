import { beforeAll, describe, expect } from 'vitest'
import { database } from '#tests/support/database.ts'
import { hours, makeWorld, NOON } from '#tests/support/heart.ts'
import { tell } from '#tests/support/heart-story.ts'

/** Blackbirds (thrushes), sparrows, kestrels and robins (alone) of the small world, by number. */
const BLACKBIRD = [5, 10, 15, 20, 25] as const
const SPARROW = [2, 7, 12, 17] as const
const KESTREL = [3, 8] as const
const ROBIN = [4, 9] as const
const CAGE = 7 // hospital cage, two thrushes at once, dries no time
const AVIARY = 6 // takes no kestrels, dries an hour a place
const WARD = [1, 2] as const // cages of the room that keeps predator and prey apart

beforeAll(async () => {
  const client = await database.pool.connect()
  await makeWorld(client)
  client.release()
})

describe('what happened is saved, flagged and counted', () => {
  tell('a third animal in a cage for two: full', async w => {
    for (const animal of BLACKBIRD.slice(0, 3)) await w.fact(w.put(animal, CAGE))
    expect(await w.stays(BLACKBIRD[2])).toEqual([])
    expect(await w.short(BLACKBIRD[2])).toEqual([{ because: 'full', starts_at: NOON, ends_at: null }])
    expect(await w.daysShort(hours(12))).toBeCloseTo(0.5, 9)
  })

  tell('a hawk among small birds: company', async w => {
    await w.fact(w.put(BLACKBIRD[0], CAGE))
    await w.fact(w.put(KESTREL[0], CAGE))
    expect(await w.short(KESTREL[0])).toMatchObject([{ because: 'company' }])
    expect(await w.stays(BLACKBIRD[0])).toHaveLength(1)
  })

  tell('another animal with one that must be alone: company', async w => {
    await w.fact(w.put(ROBIN[0], CAGE))
    await w.fact(w.put(ROBIN[1], CAGE))
    expect(await w.short(ROBIN[1])).toMatchObject([{ because: 'company' }])
  })

  tell('a kind the enclosure is not set up for: not stocked', async w => {
    await w.fact(w.put(KESTREL[0], AVIARY))
    expect(await w.short(KESTREL[0])).toMatchObject([{ because: 'not-stocked' }])
  })

  tell('in the corridor: no enclosure', async w => {
    await w.fact({ casualty_id: BLACKBIRD[0], since: NOON, keeper: 'centre', centre_id: 1 })
    expect(await w.short(BLACKBIRD[0])).toMatchObject([{ because: 'no-enclosure' }])
  })

  tell('predator and prey in one room that keeps them apart: room', async w => {
    await w.fact(w.put(BLACKBIRD[0], WARD[0]))
    await w.fact(w.put(KESTREL[0], WARD[1]))
    expect(await w.short(KESTREL[0])).toMatchObject([{ because: 'room' }])
  })

  tell('a quarantine stage outside isolation: quarantine', async w => {
    const entry = await w.fact(w.put(BLACKBIRD[0], CAGE, hours(-6)))
    expect(entry).toBeGreaterThan(0)
    await w.one(
      `with p as (insert into casualty_plan (entry_id, casualty_id, version_no, plan_ids, because)
         select max(id), $1::int, 1, '{}', '' from entry returning id),
       s as (insert into casualty_stage (casualty_plan_id, stage_no, stage, housing_type, estimate, marks)
         select id, no, stage, 'isolation', '{}', '{}' from p, (values (1, 'quarantine'), (2, 'limited activity')) v (no, stage))
       insert into stage_fact (entry_id, casualty_id, stage_no, kind, at)
       select (select max(id) from entry), $1::int, no, 'began', at
         from (values (1, $2::timestamptz), (2, $3::timestamptz)) v (no, at)`,
      [BLACKBIRD[0], hours(-5), hours(-1)],
    )
    expect(await w.short(BLACKBIRD[0])).toEqual([
      { because: 'quarantine', starts_at: hours(-5), ends_at: hours(-1) },
    ])
    expect(await w.daysShort(NOON)).toBeCloseTo(4 / 24, 9)
  })

  tell('into a closed enclosure: closed', async w => {
    await w.one(`select close_enclosure(null, $1, $2, null, 'storm', $3)`, [CAGE, hours(-1), NOON])
    await w.fact(w.put(BLACKBIRD[0], CAGE))
    expect(await w.short(BLACKBIRD[0])).toMatchObject([{ because: 'closed' }])
  })

  tell(
    'a closure around occupants: they are the list of moves, and lifting gives them their places back',
    async w => {
      await w.fact(w.put(BLACKBIRD[0], CAGE, hours(-5)))
      const { id } = await w.one<{ id: number }>(
        `select close_enclosure(null, $1, $2, null, 'storm', $2) as id`,
        [CAGE, NOON],
      )
      expect(await w.stays(BLACKBIRD[0])).toMatchObject([{ starts_at: hours(-5), ends_at: NOON }])
      expect(await w.short(BLACKBIRD[0])).toMatchObject([{ because: 'closed', starts_at: NOON }])
      await w.one('select lift_closure($1, $2)', [id, hours(3)])
      expect(await w.stays(BLACKBIRD[0])).toMatchObject([
        { starts_at: hours(-5), ends_at: NOON },
        { starts_at: hours(3), ends_at: null },
      ])
      expect(await w.daysShort(hours(100))).toBeCloseTo(3 / 24, 9)
    },
  )

  tell('a walk-in at a stopped site has its place and is flagged', async w => {
    await w.one(`select set_site_state(2, 'no-movement', null, null, 'suspicion', $1)`, [hours(-2)])
    await w.fact(w.put(BLACKBIRD[0], CAGE))
    expect(await w.stays(BLACKBIRD[0])).toHaveLength(1)
    expect(await w.all('select casualty_id, because from against_the_rule')).toEqual([
      { casualty_id: BLACKBIRD[0], because: 'stop' },
    ])
  })

  tell('seen after its case was closed: open again and flagged', async w => {
    await w.fact(w.put(BLACKBIRD[0], CAGE, hours(-5)))
    await w.fact({ casualty_id: BLACKBIRD[0], since: hours(-3), keeper: 'nobody', outcome: 'escaped' })
    await w.fact(w.put(BLACKBIRD[0], CAGE, hours(-1)))
    expect(await w.stays(BLACKBIRD[0])).toHaveLength(2)
    expect(await w.all('select casualty_id, because from against_the_rule')).toEqual([
      { casualty_id: BLACKBIRD[0], because: 'reopened' },
    ])
  })

  tell('into a cage that is still drying: the drying is cut', async w => {
    await w.fact(w.put(SPARROW[0], AVIARY, hours(-5)))
    await w.fact({ casualty_id: SPARROW[0], since: hours(-0.5), keeper: 'nobody', outcome: 'released' })
    await w.fact({ ...w.put(SPARROW[1], AVIARY, NOON), place_no: 1 })
    expect(await w.stays(SPARROW[1])).toMatchObject([{ place_no: 1, starts_at: NOON }])
    expect(
      await w.all(`select starts_at, ends_at from claim where kind = 'drying' and state = 'live'`),
    ).toEqual([{ starts_at: hours(-0.5), ends_at: NOON }])
  })

  tell('an override joins who is in', async w => {
    await w.fact(w.put(BLACKBIRD[0], CAGE))
    await w.fact({ ...w.put(SPARROW[0], CAGE), override_reason: 'grew up together' })
    expect(await w.stays(SPARROW[0])).toMatchObject([{ place_no: 2 }])
  })

  tell('but never prey with its predator', async w => {
    await w.fact(w.put(KESTREL[0], CAGE))
    await w.fact({ ...w.put(SPARROW[0], CAGE), override_reason: 'no other cage' })
    expect(await w.short(SPARROW[0])).toMatchObject([{ because: 'company' }])
  })
})

describe('promises give way to facts', () => {
  tell('to another place of the enclosure first', async w => {
    const hold = await w.hold(BLACKBIRD[0], CAGE, 1, hours(1))
    await w.fact({ ...w.put(BLACKBIRD[1], CAGE), place_no: 1 })
    expect(await w.claim(hold)).toMatchObject({ state: 'live', place_no: 2 })
  })

  tell('a fact without a number takes a place nobody was promised', async w => {
    const hold = await w.hold(BLACKBIRD[0], CAGE, 1, hours(1))
    await w.fact(w.put(BLACKBIRD[1], CAGE))
    expect(await w.stays(BLACKBIRD[1])).toMatchObject([{ place_no: 2 }])
    expect(await w.claim(hold)).toMatchObject({ state: 'live', place_no: 1 })
  })

  tell('broken when no place is left, and it says by what', async w => {
    await w.fact(w.put(BLACKBIRD[1], CAGE))
    const hold = await w.hold(BLACKBIRD[0], CAGE, 2, hours(1))
    const fact = await w.fact({ ...w.put(BLACKBIRD[2], CAGE), place_no: 2 })
    expect(await w.claim(hold)).toMatchObject({ state: 'broken', broken_by: fact })
  })

  tell('by a closure of some hours it begins later, when the animal is not yet expected', async w => {
    const hold = await w.hold(BLACKBIRD[0], CAGE, 1, hours(1), hours(50), hours(6))
    await w.one(`select close_enclosure(null, $1, $2, $3, 'repair', $2)`, [CAGE, NOON, hours(5)])
    expect(await w.claim(hold)).toMatchObject({ state: 'live', starts_at: hours(5) })
  })

  tell('of the animal itself it is taken', async w => {
    const hold = await w.hold(BLACKBIRD[0], CAGE, 2, hours(1))
    await w.fact(w.put(BLACKBIRD[0], CAGE))
    expect(await w.claim(hold)).toMatchObject({ state: 'taken' })
    expect(await w.stays(BLACKBIRD[0])).toMatchObject([{ place_no: 2 }])
  })

  tell('when a departure slips', async w => {
    await w.fact(w.put(BLACKBIRD[0], CAGE, hours(-5)))
    await w.fact(w.put(BLACKBIRD[1], CAGE, hours(-5)))
    await w.one('select book_departure(null, $1, $2, $3)', [BLACKBIRD[0], hours(2), NOON])
    const hold = await w.hold(BLACKBIRD[2], CAGE, 1, hours(3))
    await w.one('select expire_due_holds($1)', [hours(2.5)])
    expect(await w.claim(hold)).toMatchObject({ state: 'broken' })
    expect(await w.all('select state from departure')).toEqual([{ state: 'slipped' }])
    expect(await w.stays(BLACKBIRD[0])).toMatchObject([{ ends_at: null }])
  })
})

describe('time alone', () => {
  tell('ends a hold that ran out, once, whoever asks first', async w => {
    const hold = await w.hold(BLACKBIRD[0], CAGE, 1, hours(1))
    expect(await w.one('select expire_due_holds($1) as settled', [hours(399)])).toEqual({ settled: 0 })
    expect(await w.one('select expire_due_holds($1) as settled', [hours(400)])).toEqual({ settled: 1 })
    expect(await w.one('select expire_due_holds($1) as settled', [hours(400)])).toEqual({ settled: 0 })
    expect(await w.claim(hold)).toMatchObject({ state: 'expired' })
    expect(await w.all(`select action, subject_id from audit`)).toEqual([
      { action: 'hold.expire', subject_id: String(hold) },
    ])
  })

  tell('gives an animal its place back when a closure ends, with no word from anybody', async w => {
    await w.fact(w.put(BLACKBIRD[0], CAGE, hours(-5)))
    await w.one(`select close_enclosure(null, $1, $2, $3, 'paint', $2)`, [CAGE, NOON, hours(4)])
    expect(await w.stays(BLACKBIRD[0])).toMatchObject([
      { starts_at: hours(-5), ends_at: NOON },
      { starts_at: hours(4), ends_at: null },
    ])
  })

  tell('cleaning ends the drying', async w => {
    await w.fact(w.put(SPARROW[0], AVIARY, hours(-5)))
    await w.fact({ casualty_id: SPARROW[0], since: hours(-0.5), keeper: 'nobody', outcome: 'released' })
    await w.one('select cleaned_now(null, $1, $2)', [AVIARY, hours(0.25)])
    expect(
      await w.all(`select starts_at, ends_at from claim where kind = 'drying' and state = 'live'`),
    ).toEqual([{ starts_at: hours(-0.5), ends_at: hours(0.25) }])
  })
})

describe('late words and corrections', () => {
  tell('the fact entered first keeps the place; ending that stay frees it', async w => {
    await w.fact(w.put(ROBIN[0], CAGE, hours(-10)))
    await w.fact(w.put(ROBIN[1], CAGE, hours(-8)))
    expect(await w.short(ROBIN[1])).toMatchObject([{ starts_at: hours(-8), ends_at: null }])
    await w.fact({ casualty_id: ROBIN[0], since: hours(-9), keeper: 'nobody', outcome: 'released' })
    expect(await w.short(ROBIN[1])).toEqual([])
    expect(await w.stays(ROBIN[1])).toMatchObject([{ starts_at: hours(-8), ends_at: null }])
  })

  tell('an undone death brings the stay back, not what the death gave up', async w => {
    await w.fact(w.put(BLACKBIRD[0], CAGE, hours(-10)))
    const hold = await w.hold(BLACKBIRD[0], AVIARY, 1, hours(5))
    await w.one(
      `insert into check_due (casualty_id, stage_no, check_slug, what, who, mark) values ($1, 1, 'weigh', '', 'carer', 'CP')`,
      [BLACKBIRD[0]],
    )
    const death = await w.fact({
      casualty_id: BLACKBIRD[0],
      since: hours(-1),
      keeper: 'nobody',
      outcome: 'died',
    })
    expect(await w.claim(hold)).toMatchObject({ state: 'given-up' })
    expect(await w.one('select called_off_at from check_due')).toEqual({ called_off_at: NOON })
    await w.fact({ casualty_id: BLACKBIRD[0], supersedes: death, is_void: true })
    expect(await w.stays(BLACKBIRD[0])).toMatchObject([{ starts_at: hours(-10), ends_at: null }])
    expect(await w.claim(hold)).toMatchObject({ state: 'given-up' })
  })

  tell('an undo that makes a death current frees what it holds', async w => {
    const death = { casualty_id: BLACKBIRD[0], since: hours(-5), keeper: 'nobody', outcome: 'died' } as const
    await w.fact(w.put(BLACKBIRD[0], CAGE, hours(-10)))
    await w.fact(death)
    const seen = await w.fact(w.put(BLACKBIRD[0], CAGE, hours(-3)))
    const hold = await w.hold(BLACKBIRD[0], AVIARY, 1, hours(5))
    await w.fact({ casualty_id: BLACKBIRD[0], supersedes: seen, is_void: true })
    expect(await w.claim(hold)).toMatchObject({ state: 'given-up' })
  })

  tell('a correction meets the newest version, whichever was seen', async w => {
    const first = await w.fact(w.put(BLACKBIRD[0], CAGE, hours(-10)))
    await w.fact({ ...w.put(BLACKBIRD[0], CAGE, hours(-9)), supersedes: first })
    await w.fact({ ...w.put(BLACKBIRD[0], AVIARY, hours(-8)), supersedes: first })
    expect(await w.stays(BLACKBIRD[0])).toMatchObject([{ enclosure_id: AVIARY, starts_at: hours(-8) }])
    expect(
      await w.one('select count(*)::int as n from keeping_span where casualty_id = $1', [BLACKBIRD[0]]),
    ).toEqual({ n: 1 })
  })

  tell('what was known on a revision does not change when more is known', async w => {
    await w.fact(w.put(BLACKBIRD[0], CAGE, hours(-10)))
    const { revision } = await w.one<{ revision: number }>('select revision from network')
    const known = () =>
      w.all('select * from keeping_as_known_on($1) where casualty_id = $2', [revision, BLACKBIRD[0]])
    const before = await known()
    await w.fact({ casualty_id: BLACKBIRD[0], since: hours(-9), keeper: 'nobody', outcome: 'died' })
    await w.fact(w.put(BLACKBIRD[0], AVIARY, hours(-20)))
    expect(before).toHaveLength(1)
    expect(await known()).toEqual(before)
  })

  tell('naming the species settles its stays again', async w => {
    await w.fact(w.put(BLACKBIRD[0], CAGE, hours(-10)))
    await w.fact(w.put(BLACKBIRD[1], CAGE, hours(-9)))
    await w.one(`select identify((select max(id) from entry), $1, 'sparrow', 'adult', false, null, $2)`, [
      BLACKBIRD[1],
      NOON,
    ])
    expect(await w.short(BLACKBIRD[1])).toMatchObject([{ because: 'company', starts_at: hours(-9) }])
  })
})

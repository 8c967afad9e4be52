import { beforeEach, describe, expect, it } from 'vitest'
import type { PersonActor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { countDuties } from '#lib/db/duty.ts'
import type { Failure } from '#lib/kernel/failure.ts'
import { readDue } from '#lib/service/due.ts'
import { offerLine, readLineState } from '#lib/service/line.ts'
import { changePerson, getLeaving, switchPerson } from '#lib/service/setup/person.ts'
import { findActor } from '#lib/service/sign-in.ts'
import { failureWords } from '#lib/words/failure.ts'
import { database } from '#tests/support/database.ts'
import { beginNight, MARIT, OPEN_THINGS, SOMELLA } from '#tests/support/night.ts'

const { pool } = database
/** A winter's morning. */
const NOW = new Date('2026-11-29T08:00Z')
const ROUNDS = 8

const administrator = (personId: number, name: string): PersonActor => ({
  kind: 'person',
  personId,
  name,
  roles: [{ role: 'administrator' }],
})
const ISA = administrator(5, 'Isa')
const TOVE = administrator(6, 'Tove')
const [MARITS, SOMELLAS, ODOS, WENNAS] = [1, 2, 3, 4] as const

async function beginNightWithTwo(): Promise<void> {
  await beginNight(pool, NOW)
  await pool.query(
    "insert into person (name, email) values ('Isa', 'isa@example.org'), ('Tove', 'tove@example.org')",
  )
  await pool.query(
    "insert into person_role (person_id, role) values (5, 'administrator'), (6, 'administrator')",
  )
}

beforeEach(beginNightWithTwo)

const off = (id: number, passTo: number | '' = '', by = ISA, version = 1) =>
  switchPerson(by, id, { version: String(version), isActive: 'off', passTo: String(passTo) }, NOW)
const duties = (id: number) => countDuties(demand(ISA, 'people.read'), id)
const NONE = { calls: 0, callBacks: 0, isOnTheLine: false }

async function refusal(work: Promise<unknown>): Promise<Failure> {
  return work.then(
    () => {
      throw new Error('not refused')
    },
    (thrown: Failure) => thrown,
  )
}

describe('switching off somebody who owes something', () => {
  it('names what is hers and who could take it, and leaves her as she was', async () => {
    const refused = await refusal(off(MARITS))
    expect(failureWords(refused)).toEqual({
      say: 'Still to be passed on: 12 open calls, 18 call-backs and the line',
      next: 'Choose who takes it over. Nothing changes until then.',
    })
    expect(refused.data['heirs']).toEqual([
      { id: ODOS, name: 'Odo' },
      { id: SOMELLAS, name: 'Somella' },
    ])
    expect(await getLeaving(ISA, MARITS)).toEqual({
      duties: { calls: 12, callBacks: 18, isOnTheLine: true },
      heirs: refused.data['heirs'],
    })
    expect(await findActor(MARITS, 1)).toBeDefined()
    expect(await duties(MARITS)).toMatchObject({ calls: 12 })
    expect((await readLineState(NOW)).turn?.holder).toBe('Marit')
  })

  it('passes all of it on in the same moment; what she did stays under her name', async () => {
    await offerLine(MARIT, { to: String(ODOS), words: 'The otter' }, NOW)
    await off(MARITS, SOMELLAS)
    expect([await duties(MARITS), await duties(SOMELLAS)]).toEqual([
      NONE,
      { calls: 12, callBacks: 18, isOnTheLine: true },
    ])
    const state = await readLineState(NOW)
    expect([state.turn?.holder, state.turn?.how, state.unheld, state.offer]).toEqual([
      'Somella',
      'passed-on',
      undefined,
      undefined,
    ])
    const { sections } = await readDue(SOMELLA, NOW)
    const keys = sections.flatMap(({ due, later }) => [...due, ...later]).map(({ key }) => key)
    expect(keys.filter(key => !key.startsWith('line:'))).toHaveLength(OPEN_THINGS)
    expect(await findActor(MARITS, 1)).toBeUndefined()
    const { rows } = await pool.query(
      `select (select count(*)::int from call where opened_by = 1) as opened,
              (select count(*)::int from line_turn where holder_id = 1 and ended_at is not null) as held,
              (select jsonb_agg(jsonb_build_array(person_id, action, subject_id, columns, reason))
                 from audit where subject = 'person') as audit`,
    )
    const columns = [
      'is_active',
      'session_epoch',
      'line_turn.holder_id',
      'call.owner_id',
      'call_back.owner_id',
    ]
    expect(rows).toEqual([
      { opened: 12, held: 1, audit: [[5, 'switched off', '1', columns, 'duties to person 2']] },
    ])
  })

  it.each([
    ['a carer', WENNAS],
    ['herself', MARITS],
    ['nobody who is there', 99],
  ])('passes nothing to %s', async (_who, passTo) => {
    expect((await refusal(off(MARITS, passTo))).rule).toBe('duties-need-a-coordinator')
    expect(await duties(MARITS)).toMatchObject({ calls: 12, isOnTheLine: true })
    expect(await findActor(MARITS, 1)).toBeDefined()
  })

  it('passes it on too where the role of coordinator is taken away, and not where it stays', async () => {
    const asked = (role: string, more: object = {}) =>
      pool.query('select version from person where id = $1', [MARITS]).then(({ rows }) =>
        changePerson(
          ISA,
          MARITS,
          {
            name: 'Marit',
            email: 'm@example.org',
            phone: '',
            version: String(rows[0].version),
            roles: [{ role, centreId: '', practiceId: '' }],
            ...more,
          },
          NOW,
        ),
      )
    expect((await refusal(asked('manager'))).rule).toBe('duties-first')
    expect(await duties(MARITS)).toMatchObject({ calls: 12, isOnTheLine: true })
    await asked('coordinator', { passTo: String(SOMELLAS) })
    expect(await duties(MARITS)).toMatchObject({ calls: 12, isOnTheLine: true })
    await asked('manager', { passTo: String(SOMELLAS) })
    expect(await duties(SOMELLAS)).toEqual({ calls: 12, callBacks: 18, isOnTheLine: true })
    expect((await readLineState(NOW)).turn?.holder).toBe('Somella')
  })

  it('asks nothing of whoever owes nothing', async () => {
    expect(await getLeaving(ISA, WENNAS)).toBeUndefined()
    await off(WENNAS)
    expect(await findActor(WENNAS, 1)).toBeUndefined()
  })

  it('says that one call-back is hers, and is an administrator’s alone', async () => {
    const refused = await refusal(off(ODOS))
    expect(failureWords(refused).say).toBe('Still to be passed on: 1 call-back')
    expect((await refusal(off(ODOS, MARITS, SOMELLA))).code).toBe('forbidden')
  })
})

describe('two administrators at once', () => {
  it('leave nobody switched off with something to do, whichever comes first', async () => {
    for (let round = 0; round < ROUNDS; round += 1) {
      if (round > 0) await beginNightWithTwo()
      const tried = await Promise.allSettled([off(MARITS, SOMELLAS, ISA), off(SOMELLAS, ODOS, TOVE)])
      const { rows } = await pool.query('select id from person where not is_active')
      expect(rows.length).toBe(tried.filter(({ status }) => status === 'fulfilled').length)
      expect(rows.length).toBeGreaterThan(0)
      for (const { id } of rows) expect(await duties(id)).toEqual(NONE)
      const { turn, unheld } = await readLineState(NOW)
      expect([turn?.isHolderThere, unheld]).toEqual([true, undefined])
    }
  })

  it('switch one person off once, her duties to one of the two', async () => {
    const tried = await Promise.allSettled([off(MARITS, SOMELLAS, ISA), off(MARITS, ODOS, TOVE)])
    expect(tried.map(({ status }) => status).sort()).toEqual(['fulfilled', 'rejected'])
    const lost = tried.find(one => one.status === 'rejected')?.reason
    expect(lost).toMatchObject({ code: 'conflict', data: { version: 2 } })
    const heirs = [await duties(SOMELLAS), await duties(ODOS)]
    expect(heirs.map(({ calls }) => calls).sort()).toEqual([0, 12])
  })

  it('can not switch each other off', async () => {
    const tried = await Promise.allSettled([off(ISA.personId, '', TOVE), off(TOVE.personId, '', ISA)])
    expect(tried.map(({ status }) => status).sort()).toEqual(['fulfilled', 'rejected'])
    expect(tried.find(one => one.status === 'rejected')?.reason).toMatchObject({ rule: 'last-administrator' })
  })
})

/**
 * "Some time on Tuesday": whatever is recorded about an animal keeps how well its time is known, says so in one way, and
 * has its time of entry apart. Days are days of the network's clock (tz database: Europe/London is one hour ahead of UTC
 * in June).
 */
import { beforeAll, describe, expect, it } from 'vitest'
import { z } from 'zod'
import type { PersonActor } from '#lib/authz/actor.ts'
import { spanOf } from '#lib/domain/precision.ts'
import { localDateTimeText } from '#lib/domain/text.ts'
import { isFailure } from '#lib/kernel/failure.ts'
import { recordOneOfBatch } from '#lib/service/batch.ts'
import { readCasualty } from '#lib/service/casualty.ts'
import { recordArrivalOfCard, recordCheckOfCard } from '#lib/service/casualty-change.ts'
import { recordArrived, recordMoved } from '#lib/service/record.ts'
import { recordNote, recordReady, recordStageMoved, recordWeight } from '#lib/service/record-stay.ts'
import { enterOnRound } from '#lib/service/round-entry.ts'
import { recordSurgery } from '#lib/service/surgery.ts'
import { recordVetWord } from '#lib/service/vet-word.ts'
import { whenWords } from '#lib/words/dates.ts'
import { failureWords } from '#lib/words/failure.ts'
import { database } from '#tests/support/database.ts'
import { hours, makeWorld, NOON } from '#tests/support/heart.ts'
import { givePlans, giveWeighing, PEOPLE_AND_POLICY } from '#tests/support/stay-world.ts'

const { pool } = database
const ZONE = 'Europe/London'
const SOUTH = 2
/** Each for one story, so that no story depends on another. */
const [MOVED, STAYED, WRONG, ARRIVED, TAPPED, ONE, OTHER] = [13, 18, 23, 28, 33, 15, 20] as const
const desk: PersonActor = { kind: 'person', personId: 1, name: 'One', roles: [{ role: 'coordinator' }] }

/** Tuesday 9 June, at one in the afternoon as it was typed. */
const AT = hours(-24)
const TUESDAY = { earliest: new Date('2026-06-08T23:00Z'), latest: new Date('2026-06-09T22:59Z') }
const typed = z.encode(localDateTimeText(ZONE), AT)
const when = { at: typed, ...spanOf(typed, 'day') }

const one = async (text: string, values: unknown[] = []) => (await pool.query(text, values)).rows[0]
const card = (animal: number, at: Date) => readCasualty(desk, `test ${animal}`, {}, at)

beforeAll(async () => {
  const client = await pool.connect()
  await makeWorld(client)
  await client.query(PEOPLE_AND_POLICY)
  await givePlans(client, [STAYED, ARRIVED], 2)
  client.release()
  for (const animal of [MOVED, STAYED, WRONG, TAPPED])
    await recordArrived(desk, animal, { centreId: SOUTH }, hours(-96))
})

describe('an event whose time is not known well', () => {
  it('of keeping is stored with its span, and apart from it the time of entry', async () => {
    await recordMoved(desk, MOVED, { to: 'finder', since: typed, ...spanOf(typed, 'day') }, NOON)
    const fact = await one(
      `select k.since, k.since_earliest as earliest, k.since_latest as latest, e.entered_at as entered
         from keeping k join entry e on e.id = k.entry_id where k.casualty_id = $1 order by k.id desc limit 1`,
      [MOVED],
    )
    expect(fact).toEqual({ since: AT, ...TUESDAY, entered: NOON })
    const [newest] = (await card(MOVED, NOON)).happened
    expect(newest).toMatchObject({ at: AT, enteredAt: NOON, within: TUESDAY })
  })

  it('of whatever else is said of a stay is, too: one way to say it, one way to show it', async () => {
    const check = await giveWeighing(pool, STAYED, {})
    await recordStageMoved(desk, STAYED, { ...when, stageNo: 1 }, NOON)
    await recordReady(desk, STAYED, { ...when, stageNo: 1 }, NOON)
    await recordSurgery(desk, STAYED, { ...when, side: 'left', what: 'Ulna pinned' }, NOON)
    await recordVetWord(desk, STAYED, { ...when, stageNo: 1, longer: 9, saidBy: 'Dr Thessaly' }, NOON)
    await recordNote(desk, STAYED, { ...when, words: 'eats' }, NOON)
    await recordWeight(desk, STAYED, { ...when, grams: '91' }, NOON)
    const found = { checkId: String(check), found: 'holds or rises', grams: '92' }
    await recordCheckOfCard(desk, { ...when, ...found }, NOON)
    const { happened, lastWeight } = await card(STAYED, NOON)
    const shown = happened
      .filter(({ what }) => what.kind !== 'keeping' && what.kind !== 'plan')
      .map(({ what, at, within, enteredAt }) => [what.kind, { at, within, enteredAt }])
      .sort()
    const said = { at: AT, within: TUESDAY, enteredAt: NOON }
    expect(shown).toEqual(
      ['began', 'check', 'note', 'ready', 'surgery', 'vet-word', 'weight', 'weight'].map(kind => [
        kind,
        said,
      ]),
    )
    expect(lastWeight).toMatchObject({ grams: 92, at: AT, within: TUESDAY })
  })

  it('begins the first stage as vaguely as it arrived, and the note of one of a batch with its death', async () => {
    await recordArrivalOfCard(desk, ARRIVED, { since: typed, ...spanOf(typed, 'day'), centreId: SOUTH }, NOON)
    const began = await one('select at, at_earliest, at_latest from stage_fact where casualty_id = $1', [
      ARRIVED,
    ])
    expect(began).toEqual({ at: AT, at_earliest: TUESDAY.earliest, at_latest: TUESDAY.latest })

    for (const animal of [ONE, OTHER]) await recordArrived(desk, animal, { centreId: SOUTH }, hours(-96))
    await pool.query(`with b as (insert into batch (arrival_id) values (2) returning id)
      insert into membership (entry_id, casualty_id, kind, batch_id, member_no)
      select 1, n, 'joined', id, n from b, unnest(array[${ONE}, ${OTHER}]) n`)
    const death = { alive: 'dead', whereNow: 'died by itself', since: typed, ...spanOf(typed, 'day') }
    await recordOneOfBatch(desk, ONE, death, NOON)
    const notes = (await card(ONE, NOON)).happened.filter(({ what }) => what.kind === 'note')
    expect(notes).toMatchObject([{ at: AT, within: TUESDAY, enteredAt: NOON }])
  })

  it('is open again without its span when a check is taken back', async () => {
    const check = await giveWeighing(pool, TAPPED, {})
    const tap = { key: 'vague-check', centreId: SOUTH, casualtyId: TAPPED }
    const { entry } = await enterOnRound(desk, { ...tap, tap: `check ${check} holds or rises` }, NOON)
    await pool.query('update check_due set done_earliest = $2, done_latest = $3 where id = $1', [
      check,
      TUESDAY.earliest,
      NOON,
    ])
    await enterOnRound(desk, { ...tap, key: 'vague-undo', tap: `undo ${entry.id}` }, hours(1))
    expect(
      await one('select done_at, done_earliest, done_latest from check_due where id = $1', [check]),
    ).toEqual({ done_at: null, done_earliest: null, done_latest: null })
  })
})

describe('a span', () => {
  it.each([
    ['hour', 'some time between Tue 9 Jun, 13:00 and 13:59'],
    ['day', 'some time on Tue 9 Jun'],
    ['week', 'some time between Sat 6 Jun and Fri 12 Jun'],
  ])('to the %s reads as it was said', (precision, words) => {
    const { earliest = '', latest = '' } = spanOf('2026-06-09T13:00', precision) ?? {}
    const at = (text: string) => z.decode(localDateTimeText(ZONE), text)
    expect(whenWords(AT, { earliest: at(earliest), latest: at(latest) }, ZONE)).toBe(words)
  })

  it('that is none reads as the time to the minute', () => {
    expect(whenWords(AT, null, ZONE)).toBe('Tue 9 Jun, 13:00')
  })

  it('that does not hold the time is refused beside the field, and half a span is none', async () => {
    const thrown = await recordWeight(
      desk,
      WRONG,
      { at: typed, earliest: '2026-06-09T14:00', latest: '2026-06-09T15:00', grams: '90' },
      NOON,
    ).catch((error: unknown) => error)
    expect(isFailure(thrown) && [thrown.code, thrown.rule, thrown.field]).toEqual([
      'invalid',
      'weight_within_its_precision',
      'at',
    ])
    expect(isFailure(thrown) && failureWords(thrown).say).toContain('outside the span')
    await expect(
      pool.query('insert into note (casualty_id, at, words, at_earliest) values ($1, $2, $3, $2)', [
        WRONG,
        AT,
        'x',
      ]),
    ).rejects.toThrow('note_within_its_precision')
  })
})

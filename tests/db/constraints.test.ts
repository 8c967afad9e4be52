import { beforeAll, describe, expect, it } from 'vitest'
import { listMappedConstraints, refusedBy } from '#lib/db/constraint.ts'
import { isFailure } from '#lib/kernel/failure.ts'
import { constraintWords } from '#lib/words/constraint.ts'
import { BREAKS } from '#tests/support/breaks.ts'
import { database, undone } from '#tests/support/database.ts'
import { makeWorld } from '#tests/support/heart.ts'
import { addOneOfEach } from '#tests/support/one-of-each.ts'

/** Rules nobody meets: each with why it has no sentence, or can't be broken by a statement. */
const INTERNAL: Readonly<Record<string, string>> = {
  network_is_one: 'made once, at setup',
  housing_counter_is_one: 'made once, by the migration',
  due_told_is_one: 'made once, by the migration',
  policy_is_one: 'made once, at setup',
  test_clock_is_one: 'tests only',
  erasure_once: 'asking twice for an erasure changes nothing',
  entry_revision_once: 'the counter gives each number once',
  ask_answer_has_a_time: 'written by one function, with the time',
  ask_is_put_to_one: 'the form has one recipient',
  ask_chain_names_its_option: 'written by one function, with both',
  ask_put_runs_out: 'written by one function, with both times',
  ask_time_is_a_vets_yes: 'written by the answer, which parses it',
  ask_try_no_positive: 'counted by the program',
  ask_try_lapses_after_it_was_put: 'the policy waits at least a minute',
  centre_word_has_its_rounds: 'written by one function a kind',
  centre_word_ends_after_it_starts: 'only days ahead are offered',
  centre_word_lifted_after_it_was_said: 'written with the clock of the moment',
  sign_in_wait_refused_not_negative: 'counted by one function, from nought',
  claim_hold_expires: 'holds are written by plan_hold only',
  claim_shape: 'claims are written by settle and plan_hold only',
  call_back_said_when_done: 'said is written with the time',
  call_pair_in_order: 'pairs are put in order where they are written',
  casualty_member_has_a_batch: 'members are numbered where the batch is made',
  membership_changes_something: 'lines are written where something changes',
  membership_numbers_its_member: 'written by one function, with both',
  membership_takes_back_a_line: 'written by one function, with both',
  vet_word_void_names_what_it_takes_back: 'written by one function, with both',
  finder_erased_is_empty: 'written by erasure only',
  note_erased_is_empty: 'written by erasure only',
  one_time_link_token_once: '256 random bits do not come twice',
  one_time_link_token_is_a_hash: 'written by one function, which hashes',
  one_time_link_is_for_one_thing: 'its type has one subject',
  one_time_link_expires_after_it_was_made: 'the time it lives is a setting above nothing',
  one_time_link_ends_once: 'spent and taken back under guards',
  outbox_key_once: 'queued again, it is left as it is',
  outbox_tries_not_negative: 'counted up by one statement',
  outbox_ends_once: 'written by the one that delivers',
  outbox_ended_is_emptied: 'written by the one that delivers',
  move_aside_taken_up_after_it_was_set: 'written by one function, with the time',
  transfer_of_one_ask: 'each move is put as an ask of its own',
  transfer_lapses_after_it_is_expected: 'the policy holds a place for at least a minute',
  transfer_ended_has_a_time: 'ended by one function, with the time',
  journey_goes_to_one_place: 'the form has one goal',
  journey_turns_back_somewhere: 'turning back is offered from a centre only',
  journey_ends_after_it_was_made: 'ended by one function, never before',
  leg_no_in_range: 'counted by the program, as many as the form has',
  leg_ended_has_a_time: 'ended by one function, with the time',
  leg_on_the_road_since: 'taken up by one function, with the time',
  leg_ended_has_no_alarm: 'ended by one function, without',
  line_turn_ended_after_it_was_taken: 'ended by the clock of the one who takes it',
  check_due_found_once_done: 'the finding is written with the time',
  release_animal_gone_by_a_fact: 'written by one function, with both',
  check_displaced_moved_says_when: 'written by delay_promises only',
  attachment_digest_is_sha256: 'computed, never typed',
  attachment_image_is_webp: 'made by the server, never sent',
  line_offer_settled_has_a_time: 'settled by one function, with the time',
  person_code_goes_with_initials: 'written by one function, with both',
  round_entry_one_an_entry: 'written once in its entry',
  round_entry_undo_names_what: 'its schema has both or neither',
  round_entry_is_about_an_animal: 'its schema names the animal',
  round_entry_settled_has_a_time: 'settled by one function, with the time',
  job_progress_within_limits: 'a name of the program',
  job_progress_told_since_it_began: 'written by one function, with both',
  job_progress_done_of_all: 'counted by the program',
  learning_run_weight_positive: 'a number of the method',
  learning_run_counts_not_negative: 'counted by the program',
  learning_run_digests_are_sha256: 'computed, never typed',
  learning_run_within_limits: 'a name of the method',
  learned_stage_no_positive: 'numbers of a plan’s stages, which has the rule',
  learned_stage_animals_not_negative: 'counted by the program',
  learned_stage_lean_is_a_share: 'computed, never typed',
  learned_stage_has_days: 'chosen by the program',
  learned_stage_hazards_have_its_days: 'written by one function, all of one length',
  learned_stage_curves_of_one_length: 'written by one function, all of one length',
  learned_stage_stretch_positive: 'computed, never typed',
  learned_stage_odds_positive: 'computed, never typed',
  learned_stage_opens_not_before_entry: 'computed, never typed',
  learned_stage_names_plans: 'a casualty’s plan names them',
  learned_arrivals_counted: 'counted by the program',
  learned_arrivals_numbers_positive: 'computed, never typed',
  learned_arrivals_days_of_eight_bytes: 'written by one function',
  learned_arrivals_some_size: 'computed, never typed',
  learned_doubt_days_of_eight_bytes: 'written by one function',
  backtest_ends_once: 'ended by one statement each, while it is open',
  backtest_ends_after_it_began: 'ended by one statement each, never before',
  backtest_counts_not_negative: 'counted by the program',
  backtest_history_is_over: 'written by one function, which asks',
  backtest_judges_days_that_are_over: 'chosen by the program',
  backtest_within_limits: 'a name of the method',
  backtest_origin_judges_its_day: 'written by one function, with both',
}
/** Closed lists: forms offer only their members, and zod refuses others first. */
const isClosedList = (name: string) => name.endsWith('_known')

/** Triggers that refuse nothing by themselves, or stand beside one that does. */
const INTERNAL_TRIGGERS: Readonly<Record<string, string>> = {
  claim_copies_its_housing: 'fills columns',
  keeping_knows_its_first_version: 'fills a column',
  room_marks_its_claims: 'fills columns; what it meets is claim_room_apart',
  enclosure_marks_its_claims: 'fills columns',
  ask_leads_its_transfer: 'follows the answer',
  whereabouts_leads_its_journey: 'follows where the animal is',
}
const isHelper = (name: string) => /_is_(knowledge|housing|rehoused|told)$/.test(name)

const RULES = `
select conname as name, 'rule' as kind from pg_constraint
 where contype in ('c', 'x', 'u') and connamespace = 'public'::regnamespace
   and conname not in ('room_of_centre_once') -- only carries the foreign key of enclosures
union
select i.relname, 'rule' from pg_index x join pg_class i on i.oid = x.indexrelid
 where x.indisunique and not x.indisprimary and i.relnamespace = 'public'::regnamespace
   and not exists (select from pg_constraint c where c.conindid = x.indexrelid)
union
select tgname, 'trigger' from pg_trigger where not tgisinternal
order by 1`

beforeAll(async () => {
  const client = await database.pool.connect()
  await makeWorld(client)
  await addOneOfEach(client)
  client.release()
})

async function catalogue(): Promise<{ rules: string[]; triggers: string[] }> {
  const { rows } = await database.pool.query<{ name: string; kind: string }>(RULES)
  return {
    rules: rows.filter(row => row.kind === 'rule').map(row => row.name),
    triggers: rows.filter(row => row.kind === 'trigger').map(row => row.name),
  }
}

/** The name of the rule that a statement breaks, as the application reads it. */
async function ruleBrokenBy(statement: string): Promise<string> {
  return undone(async client => {
    await client.query('set constraints all immediate')
    try {
      await client.query(statement)
    } catch (thrown) {
      const refusal = refusedBy(thrown)
      return isFailure(refusal) ? (refusal.rule ?? 'no rule') : `not a refusal: ${String(thrown)}`
    }
    return 'nothing'
  })
}

describe('every rule of the database', () => {
  it('is in the list of breakable ones, and the list holds no other', async () => {
    const { rules, triggers } = await catalogue()
    expect(rules.length).toBeGreaterThan(100)
    const refusing = triggers.filter(
      name =>
        !isHelper(name) && !Object.hasOwn(INTERNAL_TRIGGERS, name) && !name.endsWith('_is_never_emptied'),
    )
    expect(Object.keys(BREAKS).sort()).toEqual([...new Set([...rules, ...refusing])].sort())
  })

  it('has a sentence for people, or says why not', () => {
    const mute = Object.keys(BREAKS).filter(name => constraintWords(name) === undefined)
    expect(mute.filter(name => !isClosedList(name) && !Object.hasOwn(INTERNAL, name))).toEqual([])
    const said = Object.keys(INTERNAL).filter(name => constraintWords(name) !== undefined)
    expect(said).toEqual([])
  })

  it('that has a code of its own is there', async () => {
    const { rules, triggers } = await catalogue()
    const missing = listMappedConstraints().filter(name => ![...rules, ...triggers].includes(name))
    expect(missing).toEqual([])
  })

  it.each(Object.entries(BREAKS))('%s refuses', async (name, statement) => {
    expect(await ruleBrokenBy(statement)).toBe(name)
  })
})

describe('tables of what was recorded', () => {
  const TABLES = [
    'entry',
    'keeping',
    'audit',
    'stage_fact',
    'membership',
    'surgery',
    'vet_word',
    'licence_word',
    'release_against',
    'release_wait',
    'weight',
    'implant',
    'implant_fact',
    'identification',
    'finding',
    'line_turn',
    'line_offer',
  ]

  it.each(TABLES)('%s can be neither emptied nor thinned', async table => {
    expect(await ruleBrokenBy(`truncate ${table} cascade`)).toMatch(/_is_append_only$/)
    expect(await ruleBrokenBy(`delete from ${table}`)).toMatch(/_is_append_only$/)
  })

  it('give up words about people, and say when', async () => {
    await undone(async client => {
      const at = '2026-07-01'
      await client.query('update entry set reason = null, erased_at = $1', [at])
      await client.query('update audit set reason = null, erased_at = $1', [at])
      await client.query('update keeping set override_reason = null, erased_at = $1 where id = 1', [at])
    })
    expect(await ruleBrokenBy('update entry set reason = null')).toBe('entry_is_append_only')
    expect(await ruleBrokenBy(`update entry set reason = 'other', erased_at = '2026-07-01'`)).toBe(
      'entry_is_append_only',
    )
    expect(
      await ruleBrokenBy(
        `update keeping set override_reason = null, erased_at = '2026-07-01', since = '2020-01-01'`,
      ),
    ).toBe('keeping_is_append_only')
  })

  it('an entry gets its revision once', async () => {
    expect(await ruleBrokenBy('update entry set revision = 2000')).toBe('entry_is_append_only')
    expect(
      await ruleBrokenBy(
        `insert into entry (entered_at) values ('2026-06-10'); update entry set revision = 2000 where revision is null`,
      ),
    ).toBe('nothing')
  })
})

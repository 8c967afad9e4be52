/**
 * Asking on the small world of heart.ts: three centres that are staffed, who answers for them, animals with their finder,
 * decisions that took the first of three options. Everybody is invented.
 */
import type pg from 'pg'
import type { PersonActor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { createDecision } from '#lib/db/decision.ts'
import { inEntry } from '#lib/db/entry.ts'
import type { PlacementOption } from '#lib/domain/option.ts'
import { bareOption } from '#lib/plan/bare-option.ts'
import { putAsks } from '#lib/service/ask-put.ts'
import { keepPlaces, readAskNetwork } from '#lib/service/ask-turn.ts'
import { makeWorld, NOON } from './heart.ts'

export const [NORTH, SOUTH, EAST] = [1, 2, 3] as const
export const COORDINATOR: PersonActor = {
  kind: 'person',
  personId: 1,
  name: 'One',
  roles: [{ role: 'coordinator' }],
}
/** Minutes an answer is waited for. */
export const LAPSE = 10
export const minutes = (n: number, from: Date = NOON): Date => new Date(from.getTime() + n * 60_000)

const ROWS = `
insert into policy (preset, kappa, omega, transfer_place_days, km_per_place_day, refusal_place_days, redirect_place_days,
  keep_advice_place_days, keep_tomorrow_place_days, keep_today_place_days, tight_chance, hold_minutes, ask_lapse_minutes, finder_days)
values ('balanced', 0.5, 1, 2, 40, 20, 5, 0.25, 0.5, 3, 0.2, 240, ${LAPSE}, 90);
insert into person (name, email, password_hash) values ('One', 'one@example.org', 'x');
update centre set night_door = 'staffed';
insert into centre (name, phone, latitude, longitude, night_door) values ('East', '0305', 53.5, -3, 'staffed');
insert into room (centre_id, name, kind, walking_order) values (1, 'Asks', 'ward', 9), (2, 'Asks', 'ward', 9), (3, 'Asks', 'ward', 1);
insert into enclosure (room_id, centre_id, name, housing_type, size_rank, width_m, length_m, height_m, walking_order)
select id, centre_id, 'Asks', 'hospital-cage', 3, 1, 1, 1, 9 from room where name = 'Asks' order by centre_id;
insert into stocking select id, 'thrushes', 500 from enclosure where name = 'Asks';
insert into centre_contact (centre_id, position, name, phone, email) values
  (1, 1, 'Ada Fenwick', '0311', 'ada@example.org'), (1, 2, 'Bo Alder', '0312', null), (2, 1, 'Cy Marsh', '0321', null);
insert into practice (name, phone, latitude, longitude) values ('Second practice', '0306', 54, -3);
insert into entry (entered_at) values ('2026-06-10');
`

const ESTIMATE = {
  stage: 'restricted activity',
  ready: { kind: 'length', length: { medianDays: 6, p90Days: 14 } },
  shares: { onward: 0.9, died: 0.05, euthanased: 0.04, left: 0.01 },
  died: { medianDays: 2, p90Days: 31 },
  euthanased: { medianDays: 2, p90Days: 31 },
}

/** The world, and blackbirds with their finder, each with a plan of one stage. Gives their numbers. */
export async function makeAskWorld(client: pg.PoolClient, animals: number): Promise<number[]> {
  await makeWorld(client, 5)
  await client.query(ROWS)
  await client.query(`insert into arrival (at) select $1 from generate_series(1, $2::int)`, [NOON, animals])
  const { rows } = await client.query<{ id: number }>(
    `insert into casualty (reference, given_on, arrival_id, species_slug, age, company_slug)
     select 'ask ' || n, '2026-06-01', 40 + n, 'blackbird', 'adult', 'thrushes' from generate_series(1, $1::int) n returning id`,
    [animals],
  )
  const ids = rows.map(({ id }) => id)
  await client.query(
    `select record_keepings((select jsonb_agg(jsonb_build_object('entry_id', 1, 'casualty_id', id, 'since', $2::timestamptz, 'keeper', 'finder')) from unnest($1::int[]) id), $2)`,
    [ids, NOON],
  )
  await client.query(
    `with p as (insert into casualty_plan (entry_id, casualty_id, version_no, plan_ids, because)
       select 1, id, 1, '{p1}', 'x' from unnest($1::int[]) id returning id)
     insert into casualty_stage (casualty_plan_id, stage_no, stage, housing_type, centre_id, estimate, marks)
     select id, 1, 'restricted activity', 'hospital-cage', 1, $2, '{"lengths":"CP"}' from p`,
    [ids, JSON.stringify(ESTIMATE)],
  )
  return ids
}

const ENCLOSURE = { [NORTH]: 9, [SOUTH]: 10, [EAST]: 11 } as const
const NAME = { [NORTH]: 'North', [SOUTH]: 'South', [EAST]: 'East' } as const

/** A whole stay at a centre; `isOffered` within what it lets the desk fill. */
export function optionAt(id: typeof NORTH | typeof SOUTH | typeof EAST, isOffered: boolean): PlacementOption {
  const centre = { id: String(id), name: NAME[id] }
  const days = { q10: null, q25: null, q50: null, q75: null, q90: null }
  return {
    ...bareOption('admit', { kind: 'centre', ...centre, phone: '0303' }),
    key: `admit:${id}`,
    path: [
      {
        stage: 'restricted activity',
        centre,
        housing: 'hospital-cage',
        from: days,
        until: days,
        reachProbability: 1,
        chanceOfPlace: 1,
        hasHousing: true,
      },
    ],
    travel: { km: 20, minutes: 30 },
    askFirst: isOffered ? null : { phone: '0303', offered: null, left: 0, wanted: 1 },
    placesTonight: [{ enclosureId: String(ENCLOSURE[id]), placeNo: 1, name: 'Asks' }],
  }
}

export const OPTIONS = [optionAt(NORTH, false), optionAt(SOUTH, false), optionAt(EAST, true)] as const

/** A decision that took the first option and asks its centre from now on; gives the number of the ask. */
export async function decideAndAsk(
  casualtyId: number,
  options: readonly PlacementOption[] = OPTIONS,
  now: Date = NOON,
): Promise<number> {
  const grant = demand(COORDINATOR, 'option.take')
  const network = await readAskNetwork(now)
  const [option] = options
  if (option === undefined) throw new RangeError('options needs at least one')
  return inEntry(
    grant,
    { now, action: 'option taken', subject: 'casualty', subjectId: casualtyId },
    async entry => {
      const { id: callId } = await entry.tx.call.create({
        data: { openedAt: now, state: 'open' },
        select: { id: true },
      })
      await keepPlaces(grant, entry.tx, [casualtyId], option, network, now)
      const decisionId = await createDecision(entry.tx, {
        callId,
        arrivalId: null,
        at: now,
        decidedBy: COORDINATOR.personId,
        kind: option.kind,
        takenKey: option.key,
        ranked: { options, ruledOut: [] },
        inputs: {},
        reason: null,
      })
      await putAsks(grant, entry, {
        actor: COORDINATOR,
        callId,
        option,
        conditions: [],
        network,
        agreedBy: '',
        decisionId,
        casualtyIds: [casualtyId],
        now,
      })
      const { id } = await entry.tx.ask.findFirstOrThrow({ where: { decisionId }, select: { id: true } })
      return id
    },
  )
}

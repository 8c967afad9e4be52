/**
 * The road of today: one animal on its way between two centres in two legs, the first driver has it; and a move of
 * another that waits for the receiving centre's yes. Told to the services like everything of the fortnight.
 */
import { z } from 'zod'
import { systemActor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { localDateTimeText } from '#lib/domain/text.ts'
import { drive } from '#lib/service/drive.ts'
import { recordReady } from '#lib/service/record-stay.ts'
import { planJourney } from '#lib/service/road-plan.ts'
import { proposeTransfer } from '#lib/service/transfer.ts'
import { COORDINATOR } from './actors.ts'
import type { Live } from './live.ts'

const MS_PER_MINUTE = 60_000
const DRIVERS = { first: 1, second: 3 } as const
const PLANNED_AGO = 40
const LEFT_AGO = 25
const MET_IN = 20
const THERE_IN = 75
const ASKED_AGO = 6
const READY_AGO = 90
const READY_MANY = 4
const MOVES_IN_MINUTES = 20 * 60

/** An animal in a place of one centre, and another centre that takes its kind and that no stop keeps it from. */
type Way = { readonly id: number; readonly fromName: string; readonly toId: number; readonly toName: string }

/** Tells both; nothing where no animal can go. */
export async function tellRoad(live: Live, now: Date, zone: string): Promise<void> {
  const [driven, moved] = await findWays(live, now)
  if (driven !== undefined) await sendOff(live, driven, now, zone)
  if (moved !== undefined) await askFor(live, moved, now, zone)
  await saysReady(live, now)
}

/** Some that have been in their stage longest are ready for one that their centre has no housing for. */
async function saysReady(live: Live, now: Date): Promise<void> {
  const at = new Date(now.getTime() - READY_AGO * MS_PER_MINUTE)
  const { rows } = await live.client.query<{ id: number; no: number }>(
    `with began as (
       select casualty_id, max(stage_no) as no, max(at) as at from stage_fact where kind = 'began' and not is_void group by casualty_id),
     planned as (
       select distinct on (casualty_id) casualty_id, id from casualty_plan order by casualty_id, version_no desc)
     select w.casualty_id as id, b.no
       from whereabouts w
       join began b on b.casualty_id = w.casualty_id
       join planned p on p.casualty_id = w.casualty_id
       join casualty_stage next on next.casualty_plan_id = p.id and next.stage_no = b.no + 1
      where w.until is null and w.enclosure_id is not null
        and not exists (select from journey_animal j where j.casualty_id = w.casualty_id and j.state = 'open')
        and not exists (select from transfer t where t.casualty_id = w.casualty_id and t.ended_at is null)
        and not exists (select from enclosure e where e.centre_id = w.centre_id and e.is_active
                          and (e.housing_type = next.housing_type or e.housing_type = any (next.housing_also)))
      order by b.at, w.casualty_id
      limit $1`,
    [READY_MANY],
  )
  for (const { id, no } of rows) await recordReady(COORDINATOR, id, { stageNo: no, at }, at)
  if (rows.length > 0) live.count('ready to move')
}

async function sendOff(live: Live, way: Way, now: Date, zone: string): Promise<void> {
  const clock = (minutes: number) =>
    z.encode(localDateTimeText(zone), new Date(now.getTime() + minutes * MS_PER_MINUTE))
  const at = (minutes: number) => new Date(now.getTime() + minutes * MS_PER_MINUTE)
  const meet = 'Lay-by at the Stonehythe turning, under the lamp'
  const journey = await planJourney(
    COORDINATOR,
    {
      animals: [String(way.id)],
      to: `centre:${way.toId}`,
      carry: 'In its own carrier with the towel over it. Water is in the door.',
      legs: [
        {
          driver: String(DRIVERS.first),
          fromWords: way.fromName,
          toWords: meet,
          pickUpAt: clock(-LEFT_AGO - 5),
          dueAt: clock(MET_IN),
        },
        {
          driver: String(DRIVERS.second),
          fromWords: meet,
          toWords: way.toName,
          pickUpAt: clock(MET_IN),
          dueAt: clock(THERE_IN),
        },
      ],
    },
    at(-PLANNED_AGO),
  )
  const [leg] = await live.ids('select id from leg where journey_id = $1 order by leg_no limit 1', [journey])
  if (leg === undefined) throw new RangeError(`journey needs a leg, got none in ${journey}`)
  const grant = demand(systemActor('driver by link'), 'system.run')
  await drive(grant, leg, { say: 'have', reason: null }, at(-LEFT_AGO))
  live.count('journeys')
}

async function askFor(live: Live, way: Way, now: Date, zone: string): Promise<void> {
  const expectedAt = new Date(now.getTime() + MOVES_IN_MINUTES * MS_PER_MINUTE)
  await proposeTransfer(
    COORDINATOR,
    {
      casualtyId: String(way.id),
      toCentreId: String(way.toId),
      expectedAt: z.encode(localDateTimeText(zone), expectedAt),
    },
    new Date(now.getTime() - ASKED_AGO * MS_PER_MINUTE),
  )
  live.count('transfers')
}

/** Mammals that nothing is planned for, from two centres, each with the nearest other centre that takes its kind. */
async function findWays({ client }: Live, now: Date): Promise<Way[]> {
  const { rows } = await client.query<Way>(
    `select distinct on (w.centre_id) c.id, here.name as "fromName", there.id as "toId", there.name as "toName"
       from whereabouts w
       join casualty c on c.id = w.casualty_id and not c.is_disease_suspect
       join species s on s.slug = c.species_slug and s.class = 'mammal'
       join centre here on here.id = w.centre_id
       join centre there on there.id <> here.id
       join centre_takes t on t.centre_id = there.id and t.group_slug = s.group_slug
       join travel r on r.from_centre_id = here.id and r.to_centre_id = there.id
      where w.until is null and w.enclosure_id is not null and w.since < $1::timestamptz - interval '3 days'
        and stop_against(c.id, there.id, $1, null, false) is null
        and not exists (select from claim k where k.casualty_id = c.id and k.kind = 'hold' and k.state = 'live')
      order by w.centre_id, c.id desc, r.km
      limit 2`,
    [now],
  )
  return rows
}

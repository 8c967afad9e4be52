/**
 * What lies ahead and beside: a planned release, an operation that a vet has a time for, two that are counted together,
 * and a move that was set aside. One of each, told to the services like everything of the fortnight.
 */
import { z } from 'zod'
import { foundChoices } from '#lib/domain/check-result.ts'
import { dateOfDay, dayOfInstant, startOfDay } from '#lib/domain/day.ts'
import { localDateTimeText } from '#lib/domain/text.ts'
import { speciesOf } from '#lib/domain/trade.ts'
import { answerByPhone } from '#lib/service/ask-answer.ts'
import { joinGroup } from '#lib/service/group.ts'
import { setMoveAside } from '#lib/service/move-aside.ts'
import { recordCheck } from '#lib/service/record-stay.ts'
import { putToPractice } from '#lib/service/referral.ts'
import { planRelease, readReleases } from '#lib/service/release.ts'
import { getPlace, positionOf } from '../scenario/geography.ts'
import { WITHENHOLT } from '../scenario/small-centres.ts'
import { COORDINATOR, carerAt } from './actors.ts'
import type { Live } from './live.ts'

const MS_PER_MINUTE = 60_000
const MS_PER_HOUR = 60 * MS_PER_MINUTE
const CHECKED_AGO = 75
const PLANNED_AGO = 60
const PUT_AGO = 55
const AGREED_AGO = 45
const JOINED_AGO = 35
const ASIDE_AGO = 30
const RELEASE_IN_DAYS = 2
const RELEASE_HOUR = 11
const OPERATED_HOUR = 10
const ASIDE_DAYS = 3
const RELEASED_AT = 'Stranmere bird hide'
/** The practice with somebody awake all night, by its number. */
const SURGEONS = 1
const VET = 'Tobias Thessalby'

/** Tells all four; each is left out where no animal suits. */
export async function tellAhead(live: Live, now: Date, zone: string): Promise<void> {
  const ago = (minutes: number) => new Date(now.getTime() - minutes * MS_PER_MINUTE)
  /** An hour of the network's clock, so many days from now. */
  const clock = (days: number, hour: number) => {
    const day = startOfDay(dayOfInstant(now, zone) + days, zone).getTime()
    return z.encode(localDateTimeText(zone), new Date(day + hour * MS_PER_HOUR))
  }
  await planOne(live, ago, clock(RELEASE_IN_DAYS, RELEASE_HOUR))
  await operateOne(live, ago, clock(1, OPERATED_HOUR))
  await joinTwo(live, ago(JOINED_AGO))
  await setOneAside(live, ago(ASIDE_AGO), dateOfDay(dayOfInstant(now, zone) + ASIDE_DAYS))
}

/** The bird said ready with the fewest gates open passes them this evening, and is to go the day after tomorrow. */
async function planOne(live: Live, ago: (minutes: number) => Date, at: string): Promise<void> {
  const { fit, atGate } = await readReleases(COORDINATOR, ago(CHECKED_AGO))
  const [first] = [...fit, ...atGate]
    .filter(one => !one.isPlanned && one.centre !== WITHENHOLT.name)
    .filter(({ species, bars }) => {
      const isBird = speciesOf(live.trade, species).class === 'bird'
      return isBird && bars.every(({ rule }) => rule === 'gate' || rule === 'vet')
    })
    .sort((a, b) => a.bars.length - b.bars.length || a.id - b.id)
  if (first === undefined) return
  const { rows } = await live.client.query<{ id: number; slug: string }>(
    `select id, check_slug as slug from check_due
      where casualty_id = $1 and required_for is not null and done_at is null and called_off_at is null order by id`,
    [first.id],
  )
  for (const { id, slug } of rows) {
    const found = foundChoices(slug).find(({ passed }) => passed)?.found
    const signedBy = slug === 'vet-word' ? VET : ''
    await recordCheck(carerAt(first.centreId), id, { found, passed: 'yes', signedBy }, ago(CHECKED_AGO))
  }
  const site = { site: RELEASED_AT, ...positionOf(getPlace(RELEASED_AT).spot) }
  const releaser = carerAt(first.centreId).name
  await planRelease(COORDINATOR, { animals: first.id, at, ...site, way: 'hard', releaser }, ago(PLANNED_AGO))
  live.count('planned releases')
}

/** The newest with a plan that counts from surgery, whom nobody was asked about yet: a vet sees it tomorrow. */
async function operateOne(live: Live, ago: (minutes: number) => Date, comesAt: string): Promise<void> {
  const { rows } = await live.client.query<{ id: number; centreId: number; name: string }>(
    `select c.id, w.centre_id as "centreId", coalesce(d.name, '') as name
       from whereabouts w
       join casualty c on c.id = w.casualty_id
       join centre n on n.id = w.centre_id and n.name <> $1
       join lateral (select plan_ids from casualty_plan p where p.casualty_id = c.id order by version_no desc limit 1) p on true
       left join lateral (select o.name from finding f join condition o on o.slug = f.condition_slug
          where f.casualty_id = c.id and not f.is_void order by f.id limit 1) d on true
      where w.until is null and w.enclosure_id is not null
        and exists (select from care_plan_gate g where g.plan_id = any (p.plan_ids) and g.anchor = 'surgery')
        and not exists (select from ask a where a.casualty_id = c.id)
        and not exists (select from transfer t where t.casualty_id = c.id and t.ended_at is null)
        and not exists (select from release_animal r where r.casualty_id = c.id)
      order by (select max(f.stage_no) from stage_fact f where f.casualty_id = c.id and f.kind = 'began'), c.id desc
      limit 1`,
    [WITHENHOLT.name],
  )
  const [one] = rows
  if (one === undefined) return
  const put = {
    practiceId: SURGEONS,
    what: `${one.name}: to be looked at under anaesthetic`,
    homeCentreId: one.centreId,
  }
  const ask = await putToPractice(COORDINATOR, one.id, put, ago(PUT_AGO))
  await answerByPhone(COORDINATOR, ask, { say: 'yes', by: VET, comesAt }, ago(AGREED_AGO))
  live.count('operations ahead')
}

/** Two that came alone, of one kind in one enclosure: nobody moves, from now on they are counted together. */
async function joinTwo(live: Live, at: Date): Promise<void> {
  const { rows } = await live.client.query<{ id: number; withId: number; centreId: number }>(
    `select b.id, a.id as "withId", w.centre_id as "centreId"
       from whereabouts w
       join casualty a on a.id = w.casualty_id
       join enclosure e on e.id = w.enclosure_id and e.housing_type <> 'isolation'
       join whereabouts v on v.enclosure_id = w.enclosure_id and v.until is null
       join casualty b on b.id = v.casualty_id and b.id > a.id and b.arrival_id <> a.arrival_id
        and b.species_slug = a.species_slug and b.company_slug = a.company_slug
      where w.until is null and num_nonnulls(a.batch_id, b.batch_id) = 0
        and not (a.is_alone or b.is_alone or a.is_disease_suspect or b.is_disease_suspect)
      order by b.id desc, a.id desc
      limit 1`,
  )
  const [two] = rows
  if (two === undefined) return
  await joinGroup(carerAt(two.centreId), two.id, { withId: two.withId }, at)
  live.count('joined groups')
}

/** The newest of those that are ready for a stage elsewhere stays for now; in a quiet week the newest that will be. */
async function setOneAside(live: Live, at: Date, untilOn: string): Promise<void> {
  const { rows } = await live.client.query<{ id: number; toId: number }>(
    `select w.casualty_id as id, t.to_centre_id as "toId"
       from whereabouts w
       join lateral (select f.stage_no, f.kind from stage_fact f where f.casualty_id = w.casualty_id order by f.id desc limit 1) f on true
       join lateral (select id from casualty_plan p where p.casualty_id = w.casualty_id order by version_no desc limit 1) p on true
       join casualty_stage s on s.casualty_plan_id = p.id and s.stage_no = f.stage_no + 1
       join travel t on t.from_centre_id = w.centre_id
      where w.until is null and w.enclosure_id is not null
        and exists (select from enclosure e where e.centre_id = t.to_centre_id and e.is_active and e.housing_type = s.housing_type)
        and not exists (select from transfer x where x.casualty_id = w.casualty_id and x.ended_at is null)
      order by (f.kind = 'ready') desc, w.casualty_id desc, t.km
      limit 1`,
  )
  const [one] = rows
  if (one === undefined) return
  const said = { reason: 'nobody drives', words: 'The carrier is lent out until then' }
  await setMoveAside(COORDINATOR, { casualtyId: one.id, toCentreId: one.toId, ...said, untilOn }, at)
  live.count('moves set aside')
}

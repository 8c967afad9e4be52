import { expect, it } from 'vitest'
import { isFailure } from '#lib/kernel/failure.ts'
import { seededRandom } from '#lib/numerics/random.ts'
import { answerByPhone, makeAskLink } from '#lib/service/ask-answer.ts'
import { answerByLink } from '#lib/service/ask-link.ts'
import { putToPractice } from '#lib/service/referral.ts'
import { COORDINATOR, makeAskWorld, NORTH } from '#tests/support/ask-world.ts'
import { database } from '#tests/support/database.ts'
import { hours } from '#tests/support/heart.ts'

const IS_FULL = process.env['ROOSTWRIGHT_FULL'] === '1'
const RACES = IS_FULL ? 1000 : 100
const AT_ONCE = 4
const SEED = 20_261_129
const AT = hours(1)
const SEEN_AT = hours(30)
const MINUTES_MAX = IS_FULL ? 20 : 3

type Told = 'won' | 'answered already' | 'taken back' | 'link over' | 'conflict'
const RULES: Readonly<Record<string, Told>> = {
  'ask-answered-already': 'answered already',
  'ask-taken-back': 'taken back',
  'link-over': 'link over',
}

async function told(answer: Promise<void>): Promise<Told> {
  try {
    await answer
    return 'won'
  } catch (thrown) {
    if (!isFailure(thrown)) throw thrown
    return RULES[thrown.rule ?? ''] ?? 'conflict'
  }
}

/** One referral: the link of a practice against a phoned yes, of the same practice or of another. */
async function race(casualty: number, isSame: boolean, linkFirst: boolean): Promise<readonly [Told, Told]> {
  const put = (practiceId: number) =>
    putToPractice(COORDINATOR, casualty, { practiceId, what: 'Pin the leg', homeCentreId: NORTH }, AT)
  const linked = await put(1)
  const phoned = isSame ? linked : await put(2)
  const token = (await makeAskLink(COORDINATOR, linked, AT)).split('/').at(-1) ?? ''
  const byLink = () => told(answerByLink(token, { say: 'yes', by: 'By link', comesAt: SEEN_AT }, AT))
  const byPhone = () =>
    told(answerByPhone(COORDINATOR, phoned, { say: 'yes', by: 'By phone', comesAt: SEEN_AT }, AT))
  if (linkFirst) return Promise.all([byLink(), byPhone()])
  const [phone, link] = await Promise.all([byPhone(), byLink()])
  return [link, phone]
}

it(
  'books one yes a referral, whichever of link and phone is first',
  async () => {
    const client = await database.pool.connect()
    const animals = await makeAskWorld(client, RACES)
    // An enclosure has at most 500 places; every yes must find one.
    await client.query(
      `with made as (
         insert into enclosure (room_id, centre_id, name, housing_type, size_rank, width_m, length_m, height_m, walking_order)
         select room_id, centre_id, 'More ' || n, housing_type, 3, 1, 1, 1, 9 from enclosure, generate_series(1, 2) n
          where name = 'Asks' and centre_id = ${NORTH} returning id)
       insert into stocking select id, 'thrushes', 500 from made`,
    )
    client.release()
    const random = seededRandom(SEED)
    const results: (readonly [Told, Told])[] = []
    for (let from = 0; from < animals.length; from += AT_ONCE) {
      const some = animals.slice(from, from + AT_ONCE)
      results.push(...(await Promise.all(some.map(id => race(id, random() < 0.5, random() < 0.5)))))
    }
    const wonBy = (side: 0 | 1) => results.filter(both => both[side] === 'won').length
    const [byLink, byPhone] = [wonBy(0), wonBy(1)]
    const losers = results.map(both => both.find(one => one !== 'won'))
    process.stdout.write(
      `${RACES} races: link won ${byLink}, phone won ${byPhone}; losers were told ${[...new Set(losers)].join(', ')}\n`,
    )
    expect(byLink + byPhone).toBe(RACES)
    expect(results.filter(both => both.filter(one => one === 'won').length !== 1)).toEqual([])
    expect(losers.filter(one => one === undefined)).toEqual([])
    // Both sides must be able to win, or nothing raced.
    expect(Math.min(byLink, byPhone)).toBeGreaterThan(RACES / 50)
    const { rows } = await database.pool.query(
      `select r.casualty_id,
              (select count(*)::int from ask a where a.referral_id = r.id and a.state = 'yes') as yes,
              (select count(*)::int from ask a where a.referral_id = r.id and a.state = 'put') as waiting,
              (select count(*)::int from check_due c where c.casualty_id = r.casualty_id) as checks,
              (select count(*)::int from claim k where k.casualty_id = r.casualty_id and k.kind = 'hold' and k.state = 'live') as holds,
              (select count(*)::int from one_time_link l join ask a on a.id = l.ask_id
                where a.referral_id = r.id and l.used_at is null and l.revoked_at is null) as links
         from referral r where r.casualty_id = any ($1)`,
      [animals],
    )
    expect(rows).toHaveLength(RACES)
    expect(
      rows.filter(
        row => row.yes !== 1 || row.waiting !== 0 || row.checks !== 2 || row.holds !== 1 || row.links !== 0,
      ),
    ).toEqual([])
  },
  MINUTES_MAX * 60_000,
)

/**
 * The page of a driver's link: one leg for whoever has it, how to carry the animals, and what to say.
 * Promise: what is no token is never looked up; each opening is in the audit; once the leg is over, given to somebody
 * else or the link ran out, nothing of the animals is shown any more.
 */
import { systemActor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { inLinkTransaction } from '#lib/db/ask-case.ts'
import { findLink, type Link, noteLinkOpening, openLink, spendLink } from '#lib/db/link.ts'
import { readNetworkFacts } from '#lib/db/network-facts.ts'
import { getJourneyOfLeg } from '#lib/db/road.ts'
import { getJourney, type JourneyView, type LegView } from '#lib/db/road-list.ts'
import { type Caution, cautionsFor } from '#lib/domain/caution.ts'
import { linkStanding } from '#lib/domain/link.ts'
import { AVIAN_INFLUENZA } from '#lib/domain/notifiable.ts'
import { parse } from '#lib/domain/parse.ts'
import { driveInput } from '#lib/domain/road.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { drive } from './drive.ts'
import { tokenHashOf } from './link.ts'
import { readTrade } from './network.ts'

export type DrivePage =
  | { readonly kind: 'unknown' }
  | { readonly kind: 'over'; readonly phone: string }
  | { readonly kind: 'delivered'; readonly phone: string; readonly at: Date }
  | {
      readonly kind: 'open'
      readonly network: string
      readonly phone: string
      readonly journey: JourneyView
      readonly leg: LegView
      /** Who drives the leg after this one; undefined for the last. */
      readonly next: LegView | undefined
      readonly cautions: readonly Caution[]
    }

/** System: what a link shows at an instant; looking at it is noted. */
export async function readDrivePage(token: string, now: Date): Promise<DrivePage> {
  const grant = demand(systemActor('link opened'), 'system.run')
  const link = await linkOf(token)
  if (link === undefined || link.subject.purpose !== 'leg') return { kind: 'unknown' }
  const { legId } = link.subject
  await inLinkTransaction(grant, async tx => {
    await noteLinkOpening(tx, link.id, now)
    await openLink(tx, link.id, now)
  })
  const [journey, { name, linePhone: phone }] = await Promise.all([
    getJourney(grant, await getJourneyOfLeg(grant, legId)),
    readNetworkFacts(grant),
  ])
  const leg = journey.legs.find(({ id }) => id === legId)
  if (leg === undefined) return { kind: 'unknown' }
  if (leg.state === 'delivered' && leg.endedAt !== null) return { kind: 'delivered', phone, at: leg.endedAt }
  const isOpen =
    linkStanding(link, now) === 'open' && (leg.state === 'planned' || leg.state === 'on the road')
  if (!isOpen) return { kind: 'over', phone }
  const next = journey.legs.find(one => one.legNo > leg.legNo && one.state === 'planned')
  return { kind: 'open', network: name, phone, journey, leg, next, cautions: await cautionsOf(journey) }
}

/** System: what whoever has the link says. Failure 'taken' when it can't count any more. */
export async function driveByLink(token: string, input: unknown, now: Date): Promise<void> {
  const grant = demand(systemActor('driver by link'), 'system.run')
  const link = await linkOf(token)
  if (link === undefined || link.subject.purpose !== 'leg') throw new Failure('not-found')
  const said = parse(driveInput, input)
  const standing = linkStanding(link, now)
  // Sent twice over a poor line: the first counted.
  if (standing === 'used' && said.say !== 'have') return
  if (standing !== 'open') throw new Failure('taken', { rule: 'link-over' })
  await drive(grant, link.subject.legId, said, now, async ({ tx }) => {
    if (said.say !== 'have') await spendLink(tx, link.id, now)
  })
}

/** What drivers have to mind, of all the animals together, each once. */
async function cautionsOf({ animals }: JourneyView): Promise<Caution[]> {
  const trade = await readTrade()
  const all = animals
    .filter(({ state }) => state === 'open')
    .flatMap(animal =>
      cautionsFor(
        {
          species: trade.speciesBySlug.get(animal.speciesSlug),
          conditions: animal.conditions.flatMap(slug => trade.conditionBySlug.get(slug) ?? []),
          answers: {},
          dangers: [],
          age: animal.age === 'adult' || animal.age === 'young' ? animal.age : 'unknown',
          notifiable: animal.isDiseaseSuspect
            ? { state: 'suspected', disease: AVIAN_INFLUENZA, because: ['said so'] }
            : { state: 'screened' },
        },
        'driver',
      ),
    )
  return [...new Map(all.map(caution => [caution.id, caution])).values()]
}

async function linkOf(token: string): Promise<Link | undefined> {
  const hash = tokenHashOf(token)
  if (hash === undefined) return undefined
  return findLink(demand(systemActor('link'), 'system.run'), hash)
}

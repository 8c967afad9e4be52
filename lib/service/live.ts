/**
 * Who is told of what changed, as it happens.
 * Promise: a follower hears of a row only what the policy lets her see of it, by the roles she has at that moment; a
 * noun that is not in the table is told to nobody. Nothing but the noun and its number is told.
 */
import type { Actor } from '#lib/authz/actor.ts'
import { systemActor } from '#lib/authz/actor.ts'
import { demand, may, type Row } from '#lib/authz/demand.ts'
import type { Permission } from '#lib/authz/policy.ts'
import {
  listConcernedByArrival,
  listConcernedByCasualty,
  listConcernedByClaim,
  listConcernedByEnclosure,
  listConcernedByRelease,
} from '#lib/db/concerned.ts'
import { listen, type Told } from '#lib/db/listen.ts'

/** What a follower hears; `everything` after a lost connection, when nobody knows what was missed. */
export type Heard = Told

export type Follower = {
  /** Who follows, with the roles of this moment; undefined once her session has ended. */
  readonly who: () => Promise<Actor | undefined>
  readonly personId: number | null
  readonly hear: (heard: Heard) => void
  readonly end: () => void
}

type Rule = { readonly permission: Permission; readonly rowOf?: (id: number) => Promise<Row> }

const asSystem = () => demand(systemActor('whom a change concerns'), 'system.run')

const RULES: Readonly<Record<string, Rule>> = {
  call: { permission: 'call.read' },
  ask: { permission: 'call.read' },
  referral: { permission: 'call.read' },
  line: { permission: 'call.read' },
  journey: { permission: 'move.read' },
  transfer: { permission: 'move.read' },
  casualty: { permission: 'casualty.read', rowOf: id => listConcernedByCasualty(asSystem(), id) },
  release: { permission: 'casualty.read', rowOf: id => listConcernedByRelease(asSystem(), id) },
  // Seasons and the law are the same for whoever reads an animal: a bar may have come or gone with them.
  season: { permission: 'casualty.read' },
  rule: { permission: 'casualty.read' },
  arrival: { permission: 'casualty.read', rowOf: id => listConcernedByArrival(asSystem(), id) },
  enclosure: { permission: 'round.read', rowOf: id => listConcernedByEnclosure(asSystem(), id) },
  // A promise that ran out.
  claim: { permission: 'round.read', rowOf: id => listConcernedByClaim(asSystem(), id) },
  learning_run: { permission: 'forecast.read' },
  backtest: { permission: 'forecast.read' },
  centre: { permission: 'round.read', rowOf: async id => ({ centreIds: [id] }) },
}

/** A session ended or lost its rights; told to nobody, but whoever's it is is looked at again. */
const SESSION = 'session'
const EVERYTHING: Heard = { noun: 'everything', id: '' }
const GATHER_MS = 30

export type Live = {
  /** Follows until the function it gives back is called. */
  readonly follow: (follower: Follower) => () => void
  /** Looks at a follower's session again; ends it where it is over. */
  readonly lookAgain: (follower: Follower) => Promise<boolean>
  readonly stop: () => Promise<void>
  readonly count: () => number
}

/** System: begins to listen. Each follower is asked for her own rights with each thing that is told. */
export function startLive(onFault: (thrown: unknown) => void): Live {
  const followers = new Set<Follower>()
  const pending = new Map<string, Told>()
  let flushing: ReturnType<typeof setTimeout> | undefined
  const flush = () => {
    flushing = undefined
    const told = [...pending.values()]
    pending.clear()
    tell(told, followers).catch(onFault)
  }
  const stopListening = listen(demand(systemActor('what changed'), 'system.run'), {
    onTold: told => {
      if (followers.size === 0) return
      if (told.noun === SESSION) {
        for (const follower of followers) {
          if (String(follower.personId) === told.id) lookAgain(follower).catch(onFault)
        }
        return
      }
      // One transaction tells many rows; a follower is looked up once for all of them.
      pending.set(`${told.noun}:${told.id}`, told)
      flushing ??= setTimeout(flush, GATHER_MS)
    },
    onMissed: () => {
      for (const { hear } of followers) hear(EVERYTHING)
    },
    onFault,
  })
  return {
    follow(follower) {
      followers.add(follower)
      return () => followers.delete(follower)
    },
    lookAgain,
    async stop() {
      clearTimeout(flushing)
      for (const { end } of followers) end()
      followers.clear()
      await stopListening()
    },
    count: () => followers.size,
  }
}

async function lookAgain({ who, end }: Follower): Promise<boolean> {
  if ((await who()) !== undefined) return true
  end()
  return false
}

type Concerned = { readonly told: Told; readonly permission: Permission; readonly row: Row | undefined }

async function tell(told: readonly Told[], followers: ReadonlySet<Follower>): Promise<void> {
  const concerned = (await Promise.all(told.map(concernedBy))).flat()
  if (concerned.length === 0) return
  await Promise.all(
    [...followers].map(async ({ who, hear, end }) => {
      const actor = await who()
      if (actor === undefined) return end()
      for (const { told, permission, row } of concerned) if (may(actor, permission, row)) hear(told)
    }),
  )
}

async function concernedBy(told: Told): Promise<Concerned[]> {
  const rule = Object.hasOwn(RULES, told.noun) ? RULES[told.noun] : undefined
  if (rule === undefined) return []
  return [{ told, permission: rule.permission, row: await rule.rowOf?.(Number(told.id)) }]
}

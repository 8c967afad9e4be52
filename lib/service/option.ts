/**
 * What can be done with the animal of a call, ranked: the call sheet against the network of this moment.
 * Promise: the options come from the same forecast that Weeks ahead shows for this revision and hour. A sheet that
 * lacks one of the three facts gets no options but says what is missing.
 */
import type { Actor } from '#lib/authz/actor.ts'
import { demand, type Grant } from '#lib/authz/demand.ts'
import { type CallFacts, type MissingFact, whatIsMissing } from '#lib/domain/call-facts.ts'
import { type Caution, cautionsFor } from '#lib/domain/caution.ts'
import { dateOfDay } from '#lib/domain/day.ts'
import type { LeaveAlone } from '#lib/domain/leave-alone.ts'
import type { NotifiableState } from '#lib/domain/notifiable.ts'
import type { RankedOptions } from '#lib/domain/option.ts'
import { type Standing, standingOf } from '#lib/domain/standing.ts'
import type { Trade } from '#lib/domain/trade.ts'
import type { UrgencyFound } from '#lib/domain/urgency.ts'
import type { Forecast } from '#lib/forecast/forecast.ts'
import type { Outlook, PlacementQuestion } from '#lib/plan/model.ts'
import { animalsOf, type CallAnimals, judge } from '#lib/plan/newcomers.ts'
import { outlookOf } from '#lib/plan/outlook.ts'
import { questionOf } from '#lib/plan/question.ts'
import { rankOptions } from '#lib/plan/rank-options.ts'
import { readTonight, type Tonight } from './network.ts'

/** What decided the order: enough to compute it again. */
export type OptionInputs = {
  readonly revision: number
  readonly knowledgeRevision: number
  /** What stays and arrivals were learned by; null where the plans and the entered year were used. */
  readonly learning: Trade['source']
  readonly asAt: string
  readonly at: string
  readonly policy: Tonight['state']['policy']
}

export type Answered = {
  readonly missing: readonly MissingFact[]
  readonly animals: CallAnimals | null
  readonly notifiable: NotifiableState
  readonly leave: LeaveAlone
  readonly urgency: UrgencyFound
  readonly cautions: readonly Caution[]
  readonly ranked: RankedOptions | null
  /** What the ranking stands on, to be compared with a later one; null without one. */
  readonly standing: Standing | null
  readonly inputs: OptionInputs
}

/** The answer to a sheet as it stands now. */
export async function answerCall(actor: Actor, facts: CallFacts, now: Date): Promise<Answered> {
  const grant = demand(actor, 'call.read')
  return answerFrom(grant, await readTonight(now), facts, now)
}

/** The answer from a network already read, so that taking an option sees what it decides on. */
export function answerFrom(
  _grant: Grant<'call.read'>,
  tonight: Tonight,
  facts: CallFacts,
  now: Date,
): Answered {
  const { state, trade, today, basis } = tonight
  const month = Number(dateOfDay(today).slice(5, 7))
  const missing = whatIsMissing(facts)
  const animals = animalsOf(facts, trade, month) ?? null
  const judged = judge(facts, trade)
  const moment = { now, today, state, trade, pools: basis.pools }
  const question =
    animals === null || facts.where === null ? null : questionOf(facts, animals, facts.where, moment)
  const ranked = question && rankOptions(question, keptOutlook(tonight.forecast))
  return {
    missing,
    animals,
    ...judged,
    cautions: cautionsOf(facts, trade, judged.notifiable),
    ranked,
    standing: ranked && standingOf(facts, ranked, placesOnArrival(question.centres)),
    inputs: {
      revision: state.revision,
      knowledgeRevision: state.knowledgeRevision,
      learning: trade.source,
      asAt: tonight.asAt.toISOString(),
      at: now.toISOString(),
      policy: state.policy,
    },
  }
}

/** By the hour the animals would come: a place that dries until then can be taken now. */
function placesOnArrival(centres: PlacementQuestion['centres']): Standing['places'] {
  return Object.fromEntries(centres.map(({ name, freeTonight }) => [name, freeTonight.length]))
}

const outlooks = new WeakMap<Forecast, Outlook>()

/** One outlook a forecast, since it remembers every price it was asked for. */
function keptOutlook(forecast: Forecast): Outlook {
  const kept = outlooks.get(forecast) ?? outlookOf(forecast)
  outlooks.set(forecast, kept)
  return kept
}

function cautionsOf(facts: CallFacts, trade: Trade, notifiable: NotifiableState): Caution[] {
  return cautionsFor(
    {
      species: facts.species === null ? undefined : trade.speciesBySlug.get(facts.species),
      conditions: facts.conditions.flatMap(({ slug }) => trade.conditionBySlug.get(slug) ?? []),
      answers: facts.answers,
      dangers: facts.dangers,
      age: facts.age,
      notifiable,
    },
    'call',
  )
}

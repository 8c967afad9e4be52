/**
 * Who may do what: one table, denied by default.
 * `by` names the roles and how far each reaches: everywhere, its own centres, its own practice. `seen` is the
 * permission that makes the row visible: a row the actor cannot see is not found (404), an action refused on a row
 * the actor can see is forbidden (403).
 */
import type { Role } from './actor.ts'

export type Reach = 'everywhere' | 'own centres' | 'own practice'

export type Rule = {
  readonly by: { readonly [role in Role]?: Reach }
  readonly seen?: string
}

const all = 'everywhere'
const centre = 'own centres'
const practice = 'own practice'

export const POLICY = {
  'call.read': { by: { coordinator: all, manager: all } },
  'call.take': { by: { coordinator: all }, seen: 'call.read' },
  'option.take': { by: { coordinator: all }, seen: 'call.read' },
  /** Centres and practices are asked, their answers written down. */
  'ask.put': { by: { coordinator: all }, seen: 'call.read' },
  'finder.read': { by: { coordinator: all }, seen: 'call.read' },

  'line.read': { by: { coordinator: all, manager: all } },
  'line.hold': { by: { coordinator: all }, seen: 'line.read' },
  /** Each reads only what her own roles owe. */
  'due.read': { by: { coordinator: all, manager: all, administrator: all, carer: centre, vet: practice } },

  /** Journeys, drivers' legs and moves between centres. */
  'move.read': { by: { coordinator: all, manager: all } },
  'move.arrange': { by: { coordinator: all }, seen: 'move.read' },

  'placement.read': { by: { coordinator: all, manager: all, carer: centre } },
  'round.read': { by: { coordinator: all, manager: all, carer: centre } },
  /** A centre says what it can take: no more until a day, how many feeding rounds. */
  'intake.say': { by: { coordinator: all, carer: centre }, seen: 'round.read' },
  'forecast.read': { by: { coordinator: all, manager: all, carer: centre } },
  /** Has forecasts of days that are over judged, which takes the worker a while. */
  'forecast.judge': { by: { manager: all } },

  'casualty.read': {
    by: { coordinator: all, manager: all, administrator: all, carer: centre, vet: practice },
  },
  'casualty.record': { by: { coordinator: all, carer: centre }, seen: 'casualty.read' },
  'casualty.revise': { by: { coordinator: all, carer: centre, vet: practice }, seen: 'casualty.read' },
  'picture.add': { by: { coordinator: all, carer: centre, vet: practice }, seen: 'casualty.read' },
  'outcome.record': { by: { coordinator: all, carer: centre, vet: practice }, seen: 'casualty.read' },
  'site-state.change': { by: { coordinator: all, manager: all, administrator: all } },

  'setup.read': { by: { coordinator: all, manager: all, administrator: all } },
  'setup.housing': { by: { administrator: all }, seen: 'setup.read' },
  'setup.practices': { by: { administrator: all }, seen: 'setup.read' },
  'setup.drivers': { by: { manager: all, administrator: all }, seen: 'setup.read' },
  'setup.seasons': { by: { manager: all, administrator: all }, seen: 'setup.read' },
  'setup.knowledge': { by: { administrator: all }, seen: 'setup.read' },
  'setup.places': { by: { manager: all, administrator: all }, seen: 'setup.read' },
  'setup.weights': { by: { administrator: all }, seen: 'setup.read' },
  'setup.plans': { by: { administrator: all }, seen: 'setup.read' },
  'setup.closures': { by: { manager: all, administrator: all }, seen: 'setup.read' },
  'setup.arrivals': { by: { manager: all, administrator: all }, seen: 'setup.read' },
  'setup.policy': { by: { manager: all, administrator: all }, seen: 'setup.read' },

  'people.read': { by: { manager: all, administrator: all } },
  'people.change': { by: { administrator: all }, seen: 'people.read' },
  'export.read': { by: { coordinator: all, manager: all, administrator: all } },

  /** What belongs to the person herself: her password, her sign-ins. */
  'account.own': { by: { coordinator: all, carer: all, vet: all, manager: all, administrator: all } },

  /** Only the system: timers, the clock, sign-in before anybody is known. */
  'system.run': { by: {} },
} as const satisfies Record<string, Rule>

export type Permission = keyof typeof POLICY

/** The rule of a permission; a name that is not in the table is refused by having no rule. */
export function ruleOf(permission: string): Rule | undefined {
  return Object.hasOwn(POLICY, permission) ? POLICY[permission as Permission] : undefined
}

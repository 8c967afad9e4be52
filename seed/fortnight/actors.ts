/** The people of the scenario as who asks: the same roles that the database gives them. */
import type { PersonActor } from '#lib/authz/actor.ts'
import { CENTRES, centreIdOf } from '../scenario/centres.ts'
import { PEOPLE, personIdOf } from '../scenario/people.ts'

/** Somebody of the scenario by name. */
export function actorOf(name: string): PersonActor {
  const person = PEOPLE[personIdOf(name) - 1]
  return {
    kind: 'person',
    personId: personIdOf(name),
    name,
    roles: (person?.roles ?? []).map(plan =>
      plan.role === 'carer' ? { role: plan.role, centreId: idOfCentre(plan.centre) } : { role: plan.role },
    ),
  }
}

/** Who writes things down at a centre: its first carer. */
export function carerAt(centreId: number): PersonActor {
  const name = CENTRES[centreId - 1]?.name
  const person = PEOPLE.find(one => one.roles.some(role => role.role === 'carer' && role.centre === name))
  return actorOf(person?.name ?? '')
}

export const COORDINATOR = actorOf('Marit Sollwyn')
export const MANAGER = actorOf('Rupert Ashgarth')

function idOfCentre(name: string): number {
  const centre = CENTRES.find(one => one.name === name)
  if (centre === undefined) throw new RangeError(`centre needs one of the scenario, got ${name}`)
  return centreIdOf(centre)
}

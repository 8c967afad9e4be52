import { expect, it } from 'vitest'
import { systemActor } from '#lib/authz/actor.ts'

it('the system acts without a person and without roles, for a reason', () => {
  expect(systemActor('seed')).toEqual({
    kind: 'system',
    personId: null,
    name: 'Roostwright',
    roles: [],
    reason: 'seed',
  })
})

import { describe, expect, it } from 'vitest'
import type { Actor, HeldRole, Role } from '#lib/authz/actor.ts'
import { demand, type Grant, may, reaches } from '#lib/authz/demand.ts'
import type { Permission } from '#lib/authz/policy.ts'

const person = (...roles: HeldRole[]): Actor => ({ kind: 'person', personId: 7, name: 'Nell Thrift', roles })
const carer = person({ role: 'carer', centreId: 1 }, { role: 'carer', centreId: 2 })
const vet = person({ role: 'vet', practiceId: 5 })
const manager = person({ role: 'manager' })

function refusal(work: () => unknown): string {
  try {
    work()
    return 'granted'
  } catch (thrown) {
    return (thrown as { code: string }).code
  }
}

describe('demand on a row', () => {
  it('grants a carer her own centres and hides the others', () => {
    expect(demand(carer, 'casualty.record', { centreIds: [2] }).scope).toEqual({
      kind: 'own',
      centreIds: [1, 2],
      practiceIds: [],
    })
    expect(refusal(() => demand(carer, 'casualty.record', { centreIds: [3] }))).toBe('not-found')
  })

  it('grants where any of the centres concerned is hers', () => {
    expect(refusal(() => demand(carer, 'casualty.read', { centreIds: [3, 1] }))).toBe('granted')
  })

  it('grants a vet the cases of her practice only', () => {
    expect(refusal(() => demand(vet, 'casualty.read', { centreIds: [1], practiceIds: [5] }))).toBe('granted')
    expect(refusal(() => demand(vet, 'casualty.read', { centreIds: [5], practiceIds: [6] }))).toBe(
      'not-found',
    )
  })

  it('forbids an action on a row the actor can see', () => {
    expect(refusal(() => demand(manager, 'casualty.record', { centreIds: [1] }))).toBe('forbidden')
    expect(refusal(() => demand(vet, 'casualty.record', { practiceIds: [5] }))).toBe('forbidden')
  })

  it('finds nothing for a row of no centre and no practice', () => {
    expect(refusal(() => demand(carer, 'casualty.read', {}))).toBe('not-found')
  })
})

describe('demand without a row', () => {
  it('forbids what no role has, and grants with the reach to apply', () => {
    expect(refusal(() => demand(carer, 'setup.housing'))).toBe('forbidden')
    expect(demand(vet, 'casualty.read').scope).toEqual({ kind: 'own', centreIds: [], practiceIds: [5] })
  })

  it('adds the reaches of several roles and lets the widest win', () => {
    const both = person(
      { role: 'carer', centreId: 1 },
      { role: 'vet', practiceId: 5 },
      { role: 'carer', centreId: 1 },
    )
    expect(demand(both, 'casualty.read').scope).toEqual({ kind: 'own', centreIds: [1], practiceIds: [5] })
    const wide = person({ role: 'carer', centreId: 1 }, { role: 'coordinator' })
    expect(demand(wide, 'casualty.read').scope).toEqual({ kind: 'everywhere' })
  })

  it('reaches nothing by a role that names no centre', () => {
    expect(refusal(() => demand(person({ role: 'carer' }), 'casualty.read'))).toBe('forbidden')
  })

  it('refuses roles and permissions that are in no table', () => {
    expect(refusal(() => demand(person({ role: 'constructor' as Role }), 'call.take'))).toBe('forbidden')
    expect(refusal(() => demand(person({ role: 'coordinator' }), 'toString' as Permission))).toBe('forbidden')
    expect(refusal(() => demand(manager, 'call.burn' as Permission, { centreIds: [1] }))).toBe('not-found')
  })
})

describe('may', () => {
  it('says what demand would do', () => {
    expect([
      may(carer, 'casualty.record', { centreIds: [1] }),
      may(carer, 'casualty.record', { centreIds: [9] }),
    ]).toEqual([true, false])
    expect([may(vet, 'call.take'), may(vet, 'casualty.revise')]).toEqual([false, true])
  })
})

describe('reaches', () => {
  it('covers everything without a row', () => {
    expect(reaches({ kind: 'own', centreIds: [], practiceIds: [] }, undefined)).toBe(true)
  })
})

describe('a grant', () => {
  it('cannot be made by hand', () => {
    const query = (grant: Grant<'casualty.read'>) => grant.permission
    // The brand is missing: the compiler refuses this call, and tests/architecture counts on it.
    type ByHand = { permission: 'casualty.read'; actor: Actor; scope: { kind: 'everywhere' } }
    const isRefused: ByHand extends Grant<'casualty.read'> ? false : true = true
    const isNarrow: Grant<'casualty.record'> extends Grant<'casualty.read'> ? false : true = true
    expect([isRefused, isNarrow, query(demand(carer, 'casualty.read'))]).toEqual([
      true,
      true,
      'casualty.read',
    ])
  })
})

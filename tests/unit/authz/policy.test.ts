/**
 * The whole matrix of rights as a literal: changing a right changes this table in review.
 * A = everywhere, c = own centres, p = own practice, - = never. The system does what it is asked for with a reason.
 */
import { describe, expect, it } from 'vitest'
import { type HeldRole, ROLES, type Role, systemActor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { type Permission, POLICY, ruleOf } from '#lib/authz/policy.ts'

const MATRIX: Readonly<Record<Permission, string>> = {
  //                    coordinator carer vet manager administrator nobody
  'call.read': '          A           -    -     A         -          -',
  'call.take': '          A           -    -     -         -          -',
  'option.take': '        A           -    -     -         -          -',
  'ask.put': '            A           -    -     -         -          -',
  'finder.read': '        A           -    -     -         -          -',
  'line.read': '          A           -    -     A         -          -',
  'line.hold': '          A           -    -     -         -          -',
  'due.read': '           A           c    p     A         A          -',
  'move.read': '          A           -    -     A         -          -',
  'move.arrange': '       A           -    -     -         -          -',
  'placement.read': '     A           c    -     A         -          -',
  'round.read': '         A           c    -     A         -          -',
  'intake.say': '         A           c    -     -         -          -',
  'forecast.read': '      A           c    -     A         -          -',
  'forecast.judge': '     -           -    -     A         -          -',
  'casualty.read': '      A           c    p     A         A          -',
  'casualty.record': '    A           c    -     -         -          -',
  'casualty.revise': '    A           c    p     -         -          -',
  'picture.add': '        A           c    p     -         -          -',
  'outcome.record': '     A           c    p     -         -          -',
  'site-state.change': '  A           -    -     A         A          -',
  'setup.read': '         A           -    -     A         A          -',
  'setup.housing': '      -           -    -     -         A          -',
  'setup.knowledge': '    -           -    -     -         A          -',
  'setup.seasons': '      -           -    -     A         A          -',
  'setup.places': '       -           -    -     A         A          -',
  'setup.weights': '      -           -    -     -         A          -',
  'setup.practices': '    -           -    -     -         A          -',
  'setup.drivers': '      -           -    -     A         A          -',
  'setup.plans': '        -           -    -     -         A          -',
  'setup.closures': '     -           -    -     A         A          -',
  'setup.arrivals': '     -           -    -     A         A          -',
  'setup.policy': '       -           -    -     A         A          -',
  'people.read': '        -           -    -     A         A          -',
  'people.change': '      -           -    -     -         A          -',
  'export.read': '        A           -    -     A         A          -',
  'account.own': '        A           A    A     A         A          -',
  'system.run': '         -           -    -     -         -          -',
}

const HELD: Readonly<Record<Role, HeldRole>> = {
  coordinator: { role: 'coordinator' },
  carer: { role: 'carer', centreId: 1 },
  vet: { role: 'vet', practiceId: 1 },
  manager: { role: 'manager' },
  administrator: { role: 'administrator' },
}

const permissions = Object.keys(POLICY) as Permission[]

function reachOf(roles: readonly HeldRole[], permission: Permission): string {
  try {
    const { scope } = demand({ kind: 'person', personId: 1, name: 'Somebody', roles }, permission)
    if (scope.kind === 'everywhere') return 'A'
    return `${scope.centreIds.length > 0 ? 'c' : ''}${scope.practiceIds.length > 0 ? 'p' : ''}`
  } catch {
    return '-'
  }
}

describe('the policy', () => {
  it.each(permissions)('gives %s to exactly these roles', permission => {
    const row = [...ROLES.map(role => [HELD[role]]), []].map(roles => reachOf(roles, permission))
    expect(row).toEqual(MATRIX[permission].trim().split(/\s+/))
  })

  it('names only permissions that exist as what makes a row visible', () => {
    const seen = permissions.flatMap(permission => ruleOf(permission)?.seen ?? [])
    expect(seen.length).toBeGreaterThan(0)
    expect(seen.filter(permission => !permissions.includes(permission as Permission))).toEqual([])
  })

  it('lets nobody act on a row that the same role cannot see', () => {
    const blind = permissions.flatMap(permission => {
      const seen = ruleOf(permission)?.seen as Permission | undefined
      if (seen === undefined) return []
      return ROLES.filter(
        role => reachOf([HELD[role]], permission) !== '-' && reachOf([HELD[role]], seen) === '-',
      ).map(role => `${role}: ${permission} without ${seen}`)
    })
    expect(blind).toEqual([])
  })

  it('has no rule for a name that is not in the table', () => {
    expect(['toString', 'call.burn', ''].map(ruleOf)).toEqual([undefined, undefined, undefined])
  })

  it('lets the system act with its reason on record', () => {
    const grant = demand(systemActor('holds run out'), 'system.run')
    expect(grant).toMatchObject({ scope: { kind: 'everywhere' }, actor: { reason: 'holds run out' } })
  })
})

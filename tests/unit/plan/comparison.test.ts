import { describe, expect, it } from 'vitest'
import type { CostReason } from '#lib/domain/option.ts'
import { bareOption } from '#lib/plan/bare-option.ts'
import { compare } from '#lib/plan/comparison.ts'
import { billOf } from '#lib/plan/term.ts'

const ash = { id: 'ash', name: 'Ashdown Quay' }
const birch = { id: 'birch', name: 'Birchover' }
const drive = (km: number): CostReason => ({ kind: 'drive', to: ash, km, kmPerPlaceDay: 40 })
const move = (probability: number): CostReason => ({
  kind: 'transfer',
  from: ash,
  to: birch,
  probability,
  weight: 2,
})

function option(costs: readonly (readonly [number, CostReason])[]) {
  const to = { kind: 'centre', phone: null, ...ash } as const
  return { ...bareOption('admit', to), ...billOf(costs.map(([value, reason]) => ({ value, reason }))) }
}

describe('compare', () => {
  const near = option([
    [0.2, drive(8)],
    [1, move(0.5)],
    [1.6, move(0.8)],
  ])
  const far = option([
    [1.1, drive(44)],
    [0.5, { kind: 'refused' }],
  ])

  it('adds up by kind and puts the largest first', () => {
    const { difference, byKind } = compare(near, far)
    expect(byKind.map(each => each.kind)).toEqual(['transfer', 'drive', 'refused'])
    expect(byKind.map(each => each.difference)).toEqual([2.6, expect.closeTo(-0.9, 12), -0.5])
    expect(byKind.reduce((sum, each) => sum + each.difference, 0)).toBeCloseTo(difference, 12)
    expect(difference).toBe(near.total - far.total)
  })

  it('shows the largest term of the side that costs more', () => {
    const { byKind } = compare(near, far)
    expect(byKind[0]!.term).toMatchObject({ kind: 'transfer', probability: 0.8 })
    expect(byKind[1]!.term).toMatchObject({ kind: 'drive', km: 44 })
  })

  it('is the same from the other side with the signs turned', () => {
    const turned = compare(far, near).byKind.map(each => [each.kind, -each.difference])
    expect(turned).toEqual(compare(near, far).byKind.map(each => [each.kind, each.difference]))
  })

  it('leaves out what is too small for a sentence', () => {
    expect(compare(option([[0.2, drive(8)]]), option([[0.21, drive(8)]])).byKind).toEqual([])
  })
})

import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { runInLanes } from '#seed/fortnight/lanes.ts'
import type { Step } from '#seed/fortnight/live.ts'

type Ran = { readonly nth: number; readonly what: 'began' | 'ended' }

/** Steps that take some turns of the loop each, and what they did in which order. */
function tell(plans: readonly { readonly turns: number; readonly touches?: readonly string[] }[]) {
  const ran: Ran[] = []
  const steps = plans.map(({ turns, touches }, nth): Step => {
    const run = async () => {
      ran.push({ nth, what: 'began' })
      for (let turn = 0; turn < turns; turn++) await Promise.resolve()
      ran.push({ nth, what: 'ended' })
    }
    return { at: nth, run, ...(touches && { touches }) }
  })
  return { ran, done: runInLanes(steps) }
}

const share = (a: readonly string[] | undefined, b: readonly string[] | undefined) =>
  a === undefined || b === undefined || a.some(one => b.includes(one))

describe('steps in lanes', () => {
  it('each run once; those that touch the same neither overlap nor change their order; three at most at once', async () => {
    const touches = fc.subarray(['a', 'b', 'c', 'd', 'e'], { minLength: 1 })
    const plan = fc.record({ turns: fc.nat(30), touches }, { requiredKeys: ['turns'] })
    await fc.assert(
      fc.asyncProperty(fc.array(plan, { maxLength: 40 }), async plans => {
        const { ran, done } = tell(plans)
        await done
        expect(ran).toHaveLength(2 * plans.length)
        const when = (nth: number, what: Ran['what']) =>
          ran.findIndex(one => one.nth === nth && one.what === what)
        plans.forEach((later, j) => {
          plans.slice(0, j).forEach((sooner, i) => {
            if (share(sooner.touches, later.touches)) expect(when(i, 'ended')).toBeLessThan(when(j, 'began'))
          })
        })
        let open = 0
        for (const { what } of ran) {
          open += what === 'began' ? 1 : -1
          expect(open).toBeLessThanOrEqual(3)
        }
      }),
      { numRuns: 200, seed: 5 },
    )
  })

  it('overlap where they may', async () => {
    const { ran, done } = tell([
      { turns: 9, touches: ['a'] },
      { turns: 9, touches: ['a'] },
      { turns: 9, touches: ['b'] },
    ])
    await done
    // The third does not wait behind the second.
    expect(ran.slice(0, 2).map(({ nth }) => nth)).toEqual([0, 2])
  })

  it('none begins after one that failed, and its failure is thrown once those beside it have ended', async () => {
    const ended: string[] = []
    const step = (name: string, run: () => Promise<void>): Step => ({ at: 0, run, touches: [name] })
    const slowly = async () => {
      for (let turn = 0; turn < 50; turn++) await Promise.resolve()
      ended.push('slow')
    }
    const fails = () => Promise.reject(new Error('the second'))
    const never = async () => {
      ended.push('never')
    }
    const steps = [step('a', slowly), step('b', fails), { ...step('b', never) }, { at: 1, run: never }]
    await expect(runInLanes(steps)).rejects.toThrow('the second')
    expect(ended).toEqual(['slow'])
  })
})

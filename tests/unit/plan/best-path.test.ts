import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { bestPaths, type PathProblem } from '#lib/plan/best-path.ts'

type Network = { stages: number[][]; moves: (number | null)[][][] }

function problemOf({ stages, moves }: Network): PathProblem {
  return {
    stageCount: stages.length,
    centreCount: stages[0]!.length,
    stageCost: (stage, centre) => stages[stage]![centre]!,
    moveCost: (stage, from, to) => moves[stage]![from]![to]!,
  }
}

/** Every centre-per-stage path from a centre, by brute force. */
function everyPath(from: number, stageCount: number, centreCount: number): number[][] {
  let paths = [[from]]
  for (let stage = 1; stage < stageCount; stage++) {
    paths = paths.flatMap(path => Array.from({ length: centreCount }, (_, to) => [...path, to]))
  }
  return paths
}

/** What follows the first stage along a path; Infinity where a move is cut. */
function costOf({ stages, moves }: Network, path: readonly number[]): number {
  return path.slice(1).reduce((cost, to, before) => {
    const from = path[before]!
    const move = from === to ? 0 : (moves[before + 1]![from]![to] ?? Infinity)
    return cost + move + stages[before + 1]![to]!
  }, 0)
}

const cost = fc.double({ min: 0, max: 30, noNaN: true })

const networks = fc
  .record({ stageCount: fc.integer({ min: 1, max: 5 }), centreCount: fc.integer({ min: 1, max: 4 }) })
  .chain(({ stageCount, centreCount }) => {
    const perCentre = <T>(value: fc.Arbitrary<T>) =>
      fc.array(value, { minLength: centreCount, maxLength: centreCount })
    const perStage = <T>(value: fc.Arbitrary<T>) =>
      fc.array(value, { minLength: stageCount, maxLength: stageCount })
    return fc.record({
      stages: perStage(perCentre(cost)),
      moves: perStage(perCentre(perCentre(fc.option(cost, { freq: 4 })))),
    })
  })

describe('bestPaths', () => {
  it('equals the cheapest of all paths, and its path costs that much', () => {
    fc.assert(
      fc.property(networks, network => {
        const [stageCount, centreCount] = [network.stages.length, network.stages[0]!.length]
        const best = bestPaths(problemOf(network))
        for (let from = 0; from < centreCount; from++) {
          const brute = Math.min(
            ...everyPath(from, stageCount, centreCount).map(path => costOf(network, path)),
          )
          expect(best.costAfter(from)).toBeCloseTo(brute, 8)
          expect(costOf(network, best.pathFrom(from))).toBeCloseTo(brute, 8)
          expect(best.pathFrom(from)).toHaveLength(stageCount)
        }
      }),
      { numRuns: 300 },
    )
  })

  it('stays where moving costs the same', () => {
    const even = {
      stages: [
        [0, 0],
        [2, 1],
      ],
      moves: [
        [],
        [
          [null, 1],
          [1, null],
        ],
      ],
    }
    expect(bestPaths(problemOf(even)).pathFrom(0)).toEqual([0, 0])
  })

  it('never takes a move that is cut, however cheap its end', () => {
    const cut = {
      stages: [
        [0, 0],
        [9, 0],
      ],
      moves: [
        [],
        [
          [null, null],
          [null, null],
        ],
      ],
    }
    expect(bestPaths(problemOf(cut)).pathFrom(0)).toEqual([0, 0])
    expect(bestPaths(problemOf(cut)).costAfter(0)).toBe(9)
  })

  it('refuses a problem without stages, and takes one without centres', () => {
    const none = { stageCost: () => 0, moveCost: () => 0 }
    expect(() => bestPaths({ ...none, stageCount: 0, centreCount: 2 })).toThrow('a path needs')
    expect(() => bestPaths({ ...none, stageCount: 2, centreCount: 0 })).not.toThrow()
  })
})

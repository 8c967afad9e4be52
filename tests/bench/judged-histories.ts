/** Judges many generated histories, one a process of its own on each core, and says how far it is: they take minutes. */
import { fork } from 'node:child_process'
import { availableParallelism } from 'node:os'
import { fileURLToPath } from 'node:url'
import { type Judged, judgeHistory } from '#tests/support/judged-forecast.ts'
import { WORLD } from '#tests/support/true-world.ts'

const here = fileURLToPath(import.meta.url)

/** By seed in the order given: one a horizon. Rejects when a history can't be judged. */
export async function judgeHistories(seeds: readonly number[]): Promise<Judged[][]> {
  const all = new Array<Judged[]>(seeds.length)
  const waiting = seeds.entries()
  let done = 0
  const judgeOn = (): Promise<void> =>
    new Promise((resolve, reject) => {
      const child = fork(here, { serialization: 'advanced' })
      let at = -1
      const next = () => {
        const { value } = waiting.next()
        if (value === undefined) return child.disconnect()
        at = value[0]
        child.send(value[1])
      }
      child.on('message', judged => {
        all[at] = judged as Judged[]
        process.stderr.write(`\r${++done} of ${seeds.length} histories judged`)
        next()
      })
      child.on('error', reject)
      child.on('exit', code =>
        code === 0 ? resolve() : reject(new Error(`seed ${seeds[at]} could not be judged`)),
      )
      next()
    })
  await Promise.all(Array.from({ length: Math.min(availableParallelism(), seeds.length) }, judgeOn))
  process.stderr.write('\n')
  return all
}

if (process.argv[1] === here)
  process.on('message', (seed: number) => process.send?.(judgeHistory(WORLD, seed)))

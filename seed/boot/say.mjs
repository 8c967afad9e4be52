/**
 * What the commands print: each step, what it does, and how long it took.
 */

/** @param {number} since a reading of performance.now() */
export const seconds = since => `${((performance.now() - since) / 1000).toFixed(1)} s`

/** @param {string} line */
export const say = line => console.log(line)

/**
 * Says what is done, does it, and says how long that took.
 * @template T
 * @param {string} what
 * @param {(note: (text: string) => void) => T | Promise<T>} run may note what it found, such as "nothing to do"
 * @returns {Promise<T>}
 */
export async function step(what, run) {
  const since = performance.now()
  let note = ''
  process.stdout.write(`${what} … `)
  try {
    const result = await run(text => {
      note = `${text}, `
    })
    say(`${note}${seconds(since)}`)
    return result
  } catch (thrown) {
    say(`failed after ${seconds(since)}`)
    throw thrown
  }
}

/** Something that the person at the keyboard can put right; shown without a stack. */
export class Halt extends Error {}

/** @param {unknown} thrown */
export function complain(thrown) {
  if (thrown instanceof Halt) console.error(`\n${thrown.message}`)
  else console.error(thrown)
}

// A closed terminal must not stop the tidying up.
for (const stream of [process.stdout, process.stderr]) stream.on('error', () => {})

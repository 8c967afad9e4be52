/**
 * A test that writes to the console fails, unless it said beforehand that it would.
 */
import { inspect } from 'node:util'
import { afterEach } from 'vitest'

const METHODS = ['debug', 'error', 'info', 'log', 'trace', 'warn'] as const

let noise: string[] = []
let allowed: RegExp[] = []

for (const method of METHODS) {
  console[method] = (...said: unknown[]) => {
    noise.push(said.map(word => (typeof word === 'string' ? word : inspect(word))).join(' '))
  }
}

/** Lets the current test write lines that match, and no others. */
export function allowConsole(pattern: RegExp): void {
  allowed.push(pattern)
}

afterEach(() => {
  const unexpected = noise.filter(line => !allowed.some(pattern => pattern.test(line)))
  noise = []
  allowed = []
  if (unexpected.length > 0) throw new Error(`the console was written to:\n${unexpected.join('\n')}`)
})

/**
 * What we write down about faults and bugs: one line of JSON a fault on the error stream.
 * Promise: a number to quote, the kind, the stack; never values of rows or forms.
 */
import { randomBytes } from 'node:crypto'

type Written = { readonly id: string; readonly name: string; readonly stack: string }

/** No rows: writes a fault down and returns its number. */
export function logFault(thrown: unknown): string {
  const id = randomBytes(4).toString('hex')
  const error = thrown instanceof Error ? thrown : new Error(typeof thrown)
  const written: Written = { id, name: error.name, stack: stackOf(error) }
  process.stderr.write(`${JSON.stringify({ level: 'error', ...written })}\n`)
  return id
}

/** The stack without the message: a driver's message quotes the row it refused. */
function stackOf(error: Error): string {
  const lines = (error.stack ?? '').split('\n').filter(line => /^\s+at /.test(line))
  const code = 'code' in error && typeof error.code === 'string' ? [error.code] : []
  return [...code, ...lines.slice(0, 12)].join('\n')
}

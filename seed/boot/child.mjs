/**
 * Starts programs in groups of their own (so that Ctrl-C reaches only us and we end them in order), keeps them in
 * the ledger, and ends whatever was started when the command ends, last started first.
 */
import { spawn } from 'node:child_process'
import { closeSync, mkdirSync, openSync, readFileSync } from 'node:fs'
import path from 'node:path'
import { end, enter, strike } from './ledger.mjs'
import { Halt } from './say.mjs'

/**
 * @typedef {{ what: string, log: string, env?: NodeJS.ProcessEnv, cwd?: string, uid?: number, gid?: number,
 *   endWith?: NodeJS.Signals, show?: boolean }} Options
 */

/** @type {Array<() => unknown>} */
const endings = []
let isEnding = false

/** Whether the command is on its way out. */
export const ending = () => isEnding

/** @param {() => unknown} tidy runs when the command ends, latest first */
export function atEnd(tidy) {
  endings.push(tidy)
}

/** Ends everything that was started. */
export async function endAll() {
  isEnding = true
  for (let tidy = endings.pop(); tidy !== undefined; tidy = endings.pop()) await tidy()
}

const PARENT_CHECK_MS = 500

/**
 * Ends everything in order on Ctrl-C and its kin, and when npm, which started us, is gone: a signal sent to npm
 * alone ends npm and its shell, but never arrives here.
 * @param {(signal: NodeJS.Signals) => number} exitCode what to exit with once all is ended
 */
export function endOnSignals(exitCode) {
  const leave = async (/** @type {NodeJS.Signals} */ name) => {
    // npm passes Ctrl-C on although the terminal has sent it already: the second one changes nothing.
    if (isEnding) return
    isEnding = true
    console.log('\nStopping.')
    await endAll()
    process.exit(exitCode(name))
  }
  for (const name of /** @type {NodeJS.Signals[]} */ (['SIGINT', 'SIGTERM', 'SIGHUP']))
    process.on(name, leave)
  if (process.env['npm_lifecycle_event'] === undefined) return
  const parent = process.ppid
  setInterval(() => process.ppid !== parent && leave('SIGTERM'), PARENT_CHECK_MS).unref()
}

/**
 * Starts a program that stays; its output goes to a file.
 * @param {string} command @param {string[]} args @param {Options} options
 */
export function start(command, args, options) {
  mkdirSync(path.dirname(options.log), { recursive: true })
  const output = openSync(options.log, 'w')
  const child = spawn(command, args, {
    cwd: options.cwd,
    env: options.env ?? process.env,
    stdio: options.show ? ['ignore', 'inherit', 'inherit'] : ['ignore', output, output],
    detached: true,
    ...(options.uid === undefined ? {} : { uid: options.uid, gid: options.gid }),
  })
  closeSync(output)
  const exited = new Promise(resolve => {
    child.once('error', resolve)
    child.once('exit', (code, signal) => resolve(code ?? signal))
  })
  const pid = child.pid
  if (pid !== undefined) enter(pid, options.what)
  const running = { pid, exited, log: options.log, hasExited: false, stop: async () => {} }
  exited.then(() => {
    running.hasExited = true
    if (pid !== undefined) strike(pid)
  })
  running.stop = async () => {
    if (pid !== undefined && !running.hasExited) await end(pid, options.endWith)
    await exited
  }
  atEnd(running.stop)
  return running
}

/**
 * Runs a program to its end.
 * @param {string} command @param {string[]} args @param {Options} options
 */
export async function run(command, args, options) {
  const status = await start(command, args, options).exited
  if (status === 0) return
  // Whoever ended the command is told so already.
  if (isEnding) await new Promise(() => {})
  throw new Halt(
    `${options.what} failed (${status}). Its last lines, from ${options.log}:\n${tail(options.log)}`,
  )
}

/** @param {string} log @param {number} [lines] */
export function tail(log, lines = 12) {
  try {
    return readFileSync(log, 'utf8').trimEnd().split('\n').slice(-lines).join('\n')
  } catch {
    return '(nothing was written)'
  }
}

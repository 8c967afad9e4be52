/**
 * Which processes belong to us, written down so that a start after `kill -9` can end what was left behind.
 * A process is known by its number and the moment it was born, so that a reused number is never mistaken.
 */
import { spawnSync } from 'node:child_process'
import { existsSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs'
import path from 'node:path'
import { setTimeout as wait } from 'node:timers/promises'

const GRACE_MS = 1500
const POSTGRES_GRACE_MS = 10_000

/** @typedef {{ pid: number, born: string, what: string, url?: string }} Entry */

/** @type {string | undefined} */
let file
/** @type {Entry[]} */
let entries = []

/** @param {string} where the file that the entries are kept in */
export function openLedger(where) {
  file = where
  entries = []
}

/** @param {number} pid @param {string} what @param {{ url?: string }} [more] */
export function enter(pid, what, more = {}) {
  const born = birthOf(pid)
  if (born === undefined) return
  entries = [...entries.filter(entry => entry.pid !== pid), { pid, born, what, ...more }]
  save()
}

/** @param {number} pid */
export function strike(pid) {
  entries = entries.filter(entry => entry.pid !== pid)
  save()
}

/** @param {string} where @returns {Entry[]} those of a ledger that are still alive */
export function survivors(where) {
  try {
    /** @type {Entry[]} */
    const written = JSON.parse(readFileSync(where, 'utf8'))
    return written.filter(entry => birthOf(entry.pid) === entry.born)
  } catch {
    return []
  }
}

/** Ends what an earlier start left running, last started first. @param {string} where */
export async function endSurvivors(where) {
  const left = survivors(where).reverse()
  for (const entry of left) await end(entry.pid, entry.what === 'postgres' ? 'SIGINT' : 'SIGTERM')
  rmSync(where, { force: true })
  return left.length
}

/**
 * Ends a process and its group: asks, waits a little, then insists.
 * @param {number} pid @param {NodeJS.Signals} [politely]
 */
export async function end(pid, politely = 'SIGTERM') {
  signal(pid, politely)
  if (await isGone(pid, politely === 'SIGINT' ? POSTGRES_GRACE_MS : GRACE_MS)) return
  signal(pid, 'SIGKILL')
  await isGone(pid, GRACE_MS)
}

/** When a process was born, or undefined when it is gone (a zombie is gone). @param {number} pid */
export function birthOf(pid) {
  if (existsSync('/proc/self/stat')) return birthInProc(pid)
  const { stdout } = spawnSync('ps', ['-o', 'stat=,lstart=', '-p', String(pid)], { encoding: 'utf8' })
  const line = stdout?.trim()
  return line === undefined || line === '' || line.startsWith('Z') ? undefined : line.replace(/^\S+\s+/, '')
}

/** @param {number} pid */
function birthInProc(pid) {
  try {
    const stat = readFileSync(`/proc/${pid}/stat`, 'utf8')
    const fields = stat.slice(stat.lastIndexOf(')') + 2).split(' ')
    const boot = readFileSync('/proc/sys/kernel/random/boot_id', 'utf8').trim()
    return fields[0] === 'Z' ? undefined : `${boot}:${fields[19]}`
  } catch {
    return undefined
  }
}

/** @param {number} pid @param {number} forMs */
async function isGone(pid, forMs) {
  const until = performance.now() + forMs
  while (birthOf(pid) !== undefined) {
    if (performance.now() > until) return false
    await wait(25)
  }
  return true
}

/** @param {number} pid @param {NodeJS.Signals} name */
function signal(pid, name) {
  for (const target of [-pid, pid]) {
    try {
      process.kill(target, name)
      return
    } catch {
      // Not the leader of a group, or gone already: the next target, or nothing, is right.
    }
  }
}

function save() {
  if (file === undefined) return
  mkdirSync(path.dirname(file), { recursive: true })
  writeFileSync(`${file}.new`, JSON.stringify(entries, null, 2))
  renameSync(`${file}.new`, file)
}

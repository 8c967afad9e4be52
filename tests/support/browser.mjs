/**
 * Finds a Chromium: on PATH, then Playwright's own, then Debian's package when root.
 */
import { spawnSync } from 'node:child_process'
import { accessSync, constants, existsSync } from 'node:fs'
import path from 'node:path'
import { run } from '../../seed/boot/child.mjs'
import { Halt } from '../../seed/boot/say.mjs'

const NAMES = ['chromium', 'chromium-browser', 'google-chrome-stable', 'google-chrome']

/** @param {string} logs @returns {Promise<string>} the path of the program */
export async function findBrowser(logs) {
  const found = onPath() ?? (await playwrightsOwn())
  if (found !== undefined) return found
  if (process.getuid?.() === 0 && spawnSync('apt-get', ['--version']).status === 0) {
    await installDebians(logs)
    const installed = onPath()
    if (installed !== undefined) return installed
  }
  throw new Halt(
    'The browser suite needs Chromium and none is here. Install it with `apt-get install chromium` ' +
      'or `npx playwright install --with-deps chromium`, then run this again.',
  )
}

function onPath() {
  const folders = (process.env['PATH'] ?? '').split(path.delimiter).filter(Boolean)
  return folders.flatMap(folder => NAMES.map(name => path.join(folder, name))).find(isProgram)
}

/** @param {string} file */
function isProgram(file) {
  try {
    accessSync(file, constants.X_OK)
    return true
  } catch {
    return false
  }
}

async function playwrightsOwn() {
  const { chromium } = await import('@playwright/test')
  const file = chromium.executablePath()
  return existsSync(file) ? file : undefined
}

/** @param {string} logs */
async function installDebians(logs) {
  const options = {
    what: 'apt-get',
    log: path.join(logs, 'apt.log'),
    env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
  }
  // Another apt may hold the lock for a while.
  const patient = ['-o', 'DPkg::Lock::Timeout=180']
  await run('apt-get', [...patient, 'update', '-q'], options)
  await run('apt-get', [...patient, 'install', '-y', '-q', '--no-install-recommends', 'chromium'], options)
}

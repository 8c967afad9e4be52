/**
 * Prisma's client and the production build, each made only when what it is made from has changed.
 */
import { createHash } from 'node:crypto'
import { cpSync, existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import path from 'node:path'
import { run } from './child.mjs'

const CLIENT_SOURCES = ['prisma/schema.prisma', 'node_modules/prisma/package.json']
const BUILD_SOURCES = [
  'app',
  'lib',
  'public',
  'prisma/schema.prisma',
  'instrumentation.ts',
  'next.config.ts',
  'package-lock.json',
  'package.json',
  'proxy.ts',
  'tsconfig.json',
]

/** @param {string} root @param {string} logs @returns {Promise<boolean>} whether there was anything to do */
export async function generateClient(root, logs) {
  const stamp = path.join(root, 'prisma', 'generated', 'made-from')
  const hash = hashOf(root, CLIENT_SOURCES)
  if (isStamped(stamp, hash)) return false
  rmSync(path.dirname(stamp), { recursive: true, force: true })
  await run(process.execPath, ['node_modules/prisma/build/index.js', 'generate'], {
    what: 'prisma generate',
    cwd: root,
    log: path.join(logs, 'generate.log'),
    // The engine that this names is never used to generate; naming one keeps Prisma from fetching it.
    env: { ...process.env, PRISMA_SCHEMA_ENGINE_BINARY: process.execPath, CHECKPOINT_DISABLE: '1' },
  })
  writeFileSync(stamp, hash)
  return true
}

/** @param {string} root @param {string} logs @param {boolean} [show] @returns {Promise<boolean>} as above */
export async function build(root, logs, show = false) {
  const stamp = path.join(root, '.next', 'standalone', 'made-from')
  const hash = hashOf(root, BUILD_SOURCES)
  if (isStamped(stamp, hash)) return false
  rmSync(stamp, { force: true })
  await run(process.execPath, ['node_modules/next/dist/bin/next', 'build'], {
    what: 'next build',
    cwd: root,
    log: path.join(logs, 'build.log'),
    env: { ...process.env, NODE_ENV: 'production', NEXT_TELEMETRY_DISABLED: '1' },
    show,
  })
  const standalone = path.join(root, '.next', 'standalone')
  cpSync(path.join(root, '.next', 'static'), path.join(standalone, '.next', 'static'), { recursive: true })
  const open = path.join(root, 'public')
  if (existsSync(open)) cpSync(open, path.join(standalone, 'public'), { recursive: true })
  writeFileSync(stamp, hash)
  return true
}

/** @param {string} stamp @param {string} hash */
const isStamped = (stamp, hash) => existsSync(stamp) && readFileSync(stamp, 'utf8') === hash

/** @param {string} root @param {string[]} sources */
function hashOf(root, sources) {
  const hash = createHash('sha256').update(process.versions.node)
  for (const file of sources.flatMap(source => filesIn(root, source))) {
    hash.update(`\0${file}\0`).update(readFileSync(path.join(root, file)))
  }
  return hash.digest('hex')
}

/** @param {string} root @param {string} source @returns {string[]} */
function filesIn(root, source) {
  const where = path.join(root, source)
  if (!existsSync(where)) return []
  try {
    return readdirSync(where)
      .sort()
      .flatMap(name => filesIn(root, `${source}/${name}`))
  } catch (thrown) {
    if (thrown instanceof Error && 'code' in thrown && thrown.code === 'ENOTDIR') return [source]
    throw thrown
  }
}

/**
 * The production build, complete: Prisma's client, Next's build, and the files that the server hands out.
 */
import path from 'node:path'
import { fileURLToPath } from 'node:url'
import { build, generateClient } from './boot/build.mjs'
import { endAll, endOnSignals } from './boot/child.mjs'
import { complain, step } from './boot/say.mjs'

const root = fileURLToPath(new URL('..', import.meta.url))
const logs = path.join(root, '.data', 'logs')

endOnSignals(() => 130)
try {
  await step('Generating the database client', () => generateClient(root, logs))
  await step('Building for production', () => build(root, logs))
} catch (thrown) {
  complain(thrown)
  await endAll()
  process.exitCode = 1
}

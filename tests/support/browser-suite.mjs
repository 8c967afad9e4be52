/**
 * What the browser suite needs: a browser, a production build, a seeded database of its own, and a server on it whose
 * clock tests may set.
 */
import { randomBytes } from 'node:crypto'
import { build } from '../../seed/boot/build.mjs'
import { atEnd } from '../../seed/boot/child.mjs'
import { connected, createDatabase, fillDatabase, migrateDatabase } from '../../seed/boot/database.mjs'
import { step } from '../../seed/boot/say.mjs'
import { serve } from '../../seed/boot/web.mjs'
import { findBrowser } from './browser.mjs'

/**
 * @param {string} root @param {string} logs @param {{ url: (database: string) => string }} server
 * @param {{ firstPort: number, secret: string }} options
 * @returns {Promise<NodeJS.ProcessEnv>} what Playwright's process is told
 */
export async function prepareBrowserSuite(root, logs, server, { firstPort, secret }) {
  const browser = await step('Finding a browser', () => findBrowser(logs))
  await step('Building for production', async note => {
    if (!(await build(root, logs))) note('as before')
  })
  const name = `roostwright_e2e_${randomBytes(5).toString('hex')}`
  await createDatabase(server.url('postgres'), name)
  atEnd(() => connected(server.url('postgres'), client => client.query(`drop database ${name} with (force)`)))
  const env = {
    DATABASE_URL: server.url(name),
    NEXTAUTH_SECRET: secret,
    NEXTAUTH_URL: `http://localhost:${firstPort}`,
    ROOSTWRIGHT_DEMO: '1',
    ROOSTWRIGHT_TEST: '1',
    ROOSTWRIGHT_TEST_CLOCK: '1',
  }
  await step('Filling a database for it', async () => {
    await migrateDatabase(root, env.DATABASE_URL, logs)
    await fillDatabase(root, logs, env)
  })
  const web = await step('Starting the web server', () => serve(root, logs, firstPort, env))
  return { ...env, NEXTAUTH_URL: web.url, ROOSTWRIGHT_TEST_BROWSER: browser }
}

/**
 * Serves the production build on a free port and waits until it answers.
 */
import path from 'node:path'
import { setTimeout as wait } from 'node:timers/promises'
import { start, tail } from './child.mjs'
import { freePort } from './port.mjs'
import { Halt } from './say.mjs'

const STARTS = 3
const PATIENCE_MS = 60_000

/**
 * @param {string} root @param {string} logs @param {number} from the first port to try @param {NodeJS.ProcessEnv} env
 */
export async function serve(root, logs, from, env) {
  for (let tries = 1; ; tries++) {
    const port = await freePort(from)
    const url = `http://localhost:${port}`
    const log = path.join(logs, 'web.log')
    const running = start(process.execPath, [path.join(root, '.next', 'standalone', 'server.js')], {
      what: 'web',
      log,
      cwd: root,
      env: {
        ...process.env,
        ...env,
        NODE_ENV: 'production',
        NEXT_TELEMETRY_DISABLED: '1',
        NEXTAUTH_URL: url,
        HOSTNAME: '127.0.0.1',
        PORT: String(port),
      },
    })
    if (await answers(port, running)) return { url, port, pid: running.pid, exited: running.exited, log }
    await running.stop()
    if (tries === STARTS || !tail(log).includes('EADDRINUSE')) {
      throw new Halt(`The web server did not come up. Its last lines, from ${log}:\n${tail(log)}`)
    }
    from = port + 1
  }
}

/** @param {number} port @param {{ hasExited: boolean }} running */
async function answers(port, running) {
  const until = performance.now() + PATIENCE_MS
  while (!running.hasExited && performance.now() < until) {
    try {
      const answer = await fetch(`http://127.0.0.1:${port}/`, { redirect: 'manual' })
      await answer.arrayBuffer()
      return answer.status < 500
    } catch {
      await wait(50)
    }
  }
  return false
}

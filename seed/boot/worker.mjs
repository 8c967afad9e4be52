/**
 * Starts the worker, which learns from the records while people look around; pages do without it until it has.
 */
import path from 'node:path'
import { ending, start } from './child.mjs'
import { say } from './say.mjs'

/** @param {string} root @param {string} logs @param {NodeJS.ProcessEnv} env */
export function startWorker(root, logs, env) {
  const log = path.join(logs, 'worker.log')
  const node = ['--conditions=react-server', '--import', 'tsx', 'lib/jobs/main.ts']
  const running = start(process.execPath, node, {
    what: 'worker',
    log,
    cwd: root,
    env: { ...process.env, ...env, NODE_ENV: 'production' },
  })
  running.exited.then(() => {
    if (!ending()) say(`The worker has ended by itself, so nothing new is learned; see ${log}.`)
  })
}

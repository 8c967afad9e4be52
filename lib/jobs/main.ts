/**
 * `npm run worker`: starts the worker and ends it on a signal. Behind whoever waits for a page: its priority is low.
 */
import { constants, setPriority } from 'node:os'
import { logFault } from '#lib/service/log.ts'
import { startWorker } from './worker.ts'

setPriority(constants.priority.PRIORITY_BELOW_NORMAL)
const starting = startWorker({ onFault: logFault })
for (const signal of ['SIGTERM', 'SIGINT'] as const) {
  process.once(signal, async () => {
    const stop = await starting
    await stop()
    process.exit(0)
  })
}
await starting
process.stdout.write('The worker has started.\n')

/**
 * The first free port from a start value.
 */
import { createServer } from 'node:net'
import { Halt } from './say.mjs'

const TRIES = 200

/** @param {number} from */
export async function freePort(from) {
  for (let port = from; port < from + TRIES; port++) {
    // Both, because a program may hold only the loopback address or only the wildcard.
    if ((await isFree(port, '127.0.0.1')) && (await isFree(port, undefined))) return port
  }
  throw new Halt(`No free port between ${from} and ${from + TRIES - 1}.`)
}

/** @param {number} port @param {string | undefined} host @returns {Promise<boolean>} */
function isFree(port, host) {
  return new Promise(resolve => {
    const server = createServer()
    server.once('error', () => resolve(false))
    server.listen({ port, host, exclusive: true }, () => server.close(() => resolve(true)))
  })
}

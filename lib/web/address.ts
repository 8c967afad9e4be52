/**
 * From which address a request comes.
 * Promise: the connection's own address is written into a header by us, over whatever the browser sent under that name,
 * before anything else sees the request; other headers are believed as far as the number of our proxies goes.
 */
import 'server-only'
import { subscribe } from 'node:diagnostics_channel'
import { headers } from 'next/headers'
import { clientAddress } from '#lib/domain/client-address.ts'
import { env } from '#lib/env.ts'

const PEER = 'x-connection-address'
const BEGIN = 'http.server.request.start'

/** Notes the address of each connection from now on. Next itself hands on only what the browser may have written. */
export function notePeers(): void {
  subscribe(BEGIN, message => {
    const request = at(message, 'request')
    const kept = at(request, 'headers')
    if (typeof kept !== 'object' || kept === null) return
    const address = at(at(request, 'socket'), 'remoteAddress')
    Reflect.set(kept, PEER, typeof address === 'string' ? address : '')
  })
}

/** The address of this request, as it is counted. */
export async function currentAddress(): Promise<string> {
  const given = await headers()
  return clientAddress(given.get(PEER), given.get('x-forwarded-for'), env().ROOSTWRIGHT_PROXIES)
}

function at(value: unknown, key: string): unknown {
  return typeof value === 'object' && value !== null ? Reflect.get(value, key) : undefined
}

/**
 * From which address somebody asks.
 * Promise: the address of the connection, or, behind a known number of our own proxies, what the outermost of them saw;
 * whatever a browser writes into the header itself is never believed. IPv6 counts by its /64, which one line has whole.
 */

const UNKNOWN = 'unknown'
const ADDRESS_LENGTH_MAX = 45

/** The address as it is counted. `peer` is the connection's, `forwarded` the header as it came. */
export function clientAddress(
  peer: string | null | undefined,
  forwarded: string | null | undefined,
  proxies: number,
): string {
  const told = proxies === 0 ? [] : (forwarded ?? '').split(',').map(part => part.trim())
  const chain = [...told.filter(part => part !== ''), peer ?? '']
  return counted(chain[Math.max(0, chain.length - 1 - proxies)] ?? '')
}

function counted(address: string): string {
  const bare = address
    .replace(/^::ffff:(?=\d+\.)/i, '')
    .replace(/^\[(.*)\](:\d+)?$/, '$1')
    .replace(/^(\d+\.\d+\.\d+\.\d+):\d+$/, '$1')
    .toLowerCase()
  if (/^\d{1,3}(\.\d{1,3}){3}$/.test(bare)) return bare
  if (/^[0-9a-f:]+$/.test(bare) && bare.includes(':') && bare.length <= ADDRESS_LENGTH_MAX)
    return network(bare)
  return UNKNOWN
}

/** "2001:db8:0:7::/64". */
function network(address: string): string {
  const [head = '', tail] = address.split('::')
  const before = head === '' ? [] : head.split(':')
  const after = tail === undefined || tail === '' ? [] : tail.split(':')
  const gap = tail === undefined ? [] : Array<string>(Math.max(0, 8 - before.length - after.length)).fill('0')
  const parts = [...before, ...gap, ...after].slice(0, 4).map(part => Number.parseInt(part || '0', 16))
  return `${parts.map(part => part.toString(16)).join(':')}::/64`
}

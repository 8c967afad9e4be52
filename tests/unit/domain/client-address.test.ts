import { expect, it } from 'vitest'
import { clientAddress } from '#lib/domain/client-address.ts'

it('is the connection, whatever the header says, where no proxy stands in front', () => {
  expect(clientAddress('203.0.113.7', '198.51.100.9', 0)).toBe('203.0.113.7')
  expect(clientAddress('::ffff:203.0.113.7', null, 0)).toBe('203.0.113.7')
  expect(clientAddress(undefined, '198.51.100.9', 0)).toBe('unknown')
})

it('is what the outermost of our proxies saw; what stands left of it was typed by the browser', () => {
  expect(clientAddress('10.0.0.2', '198.51.100.9', 1)).toBe('198.51.100.9')
  expect(clientAddress('10.0.0.2', '1.2.3.4, 198.51.100.9', 1)).toBe('198.51.100.9')
  expect(clientAddress('10.0.0.2', '1.2.3.4, 198.51.100.9, 10.0.0.3', 2)).toBe('198.51.100.9')
  // A proxy that adds nothing: the farthest that is known.
  expect(clientAddress('10.0.0.2', '', 1)).toBe('10.0.0.2')
  expect(clientAddress('10.0.0.2', '198.51.100.9:4711', 1)).toBe('198.51.100.9')
})

it('counts IPv6 by the network of one line (RFC 4291: 64 bits of prefix), however it is written', () => {
  const written = ['2001:db8:0:7::1', '2001:0DB8:0000:0007:ffff:1:2:3', '[2001:db8:0:7::9]:443']
  expect(written.map(one => clientAddress('10.0.0.2', one, 1))).toEqual(
    written.map(() => '2001:db8:0:7::/64'),
  )
  expect(clientAddress('::1', null, 0)).toBe('0:0:0:0::/64')
})

it('takes nothing else for an address', () => {
  expect(['"; drop', 'a'.repeat(300), ':'.repeat(50)].map(one => clientAddress('x', one, 1))).toEqual([
    'unknown',
    'unknown',
    'unknown',
  ])
})

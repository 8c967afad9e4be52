import { NextRequest } from 'next/server'
import { afterEach, describe, expect, it, vi } from 'vitest'
import { proxy } from '../../proxy.ts'

afterEach(() => vi.unstubAllEnvs())

const policyOf = () =>
  proxy(new NextRequest('https://desk.example.org/calls?x=1')).headers.get('content-security-policy') ?? ''

describe('the guard of every answer', () => {
  it('lets scripts and style elements run by a nonce that is new each time', () => {
    vi.stubEnv('NODE_ENV', 'production')
    const [first, second] = [policyOf(), policyOf()]
    expect(first).toMatch(/script-src 'self' 'nonce-[\w+/=]{40,}' 'strict-dynamic';/)
    expect(first).toMatch(/style-src 'self' 'nonce-[\w+/=]{40,}';/)
    expect(first).not.toContain('unsafe-eval')
    expect(first.match(/nonce-([\w+/=]+)/)?.[1]).not.toBe(second.match(/nonce-([\w+/=]+)/)?.[1])
  })

  it('names no address outside', () => {
    vi.stubEnv('NODE_ENV', 'production')
    expect(policyOf()).not.toMatch(/https?:|\*/)
  })

  it('allows eval while developing only', () => {
    vi.stubEnv('NODE_ENV', 'development')
    expect(policyOf()).toContain("'unsafe-eval'")
  })

  it('keeps others from framing and sniffing, and notes where somebody was going', () => {
    const { headers } = proxy(new NextRequest('https://desk.example.org/calls?x=1'))
    expect(Object.fromEntries(headers)).toMatchObject({
      'x-frame-options': 'DENY',
      'x-content-type-options': 'nosniff',
      'referrer-policy': 'same-origin',
      'x-middleware-request-x-asked-path': '/calls?x=1',
    })
  })
})

/**
 * Every answer's guard: a content security policy with a fresh nonce, and the headers that keep others out.
 * Promise: nothing is loaded from outside, nothing inline runs without the nonce. Streams and built files pass by.
 */
import { type NextRequest, NextResponse } from 'next/server'

export function proxy(request: NextRequest): NextResponse {
  const policy = contentSecurityPolicy(Buffer.from(crypto.randomUUID()).toString('base64'))
  const headers = new Headers(request.headers)
  headers.set('content-security-policy', policy)
  // Where somebody was going, so that signing in leads there (lib/web/session.ts).
  headers.set('x-asked-path', `${request.nextUrl.pathname}${request.nextUrl.search}`)
  const response = NextResponse.next({ request: { headers } })
  response.headers.set('content-security-policy', policy)
  for (const [name, value] of Object.entries(GUARDS)) response.headers.set(name, value)
  return response
}

const GUARDS = {
  'x-content-type-options': 'nosniff',
  'x-frame-options': 'DENY',
  'referrer-policy': 'same-origin',
  'cross-origin-opener-policy': 'same-origin',
  'permissions-policy': 'camera=(), geolocation=(), microphone=(), payment=()',
} as const

function contentSecurityPolicy(nonce: string): string {
  const inDevelopment = process.env.NODE_ENV === 'development'
  return [
    "default-src 'self'",
    // React rebuilds server stacks with eval while developing, and only then.
    `script-src 'self' 'nonce-${nonce}' 'strict-dynamic'${inDevelopment ? " 'unsafe-eval'" : ''}`,
    // Pictures are placed by style attributes whose numbers are ours; style elements need the nonce.
    inDevelopment ? "style-src 'self' 'unsafe-inline'" : `style-src 'self' 'nonce-${nonce}'`,
    "style-src-attr 'unsafe-inline'",
    "img-src 'self' data:",
    "font-src 'self'",
    "connect-src 'self'",
    "object-src 'none'",
    "base-uri 'none'",
    "form-action 'self'",
    "frame-ancestors 'none'",
  ].join('; ')
}

export const config = {
  matcher: [{ source: '/((?!_next/static|api/events|favicon.ico).*)' }],
}

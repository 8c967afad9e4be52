/**
 * The demonstration's way in, without a password.
 * Promise: refused unless this process runs the demonstration.
 */
import 'server-only'
import { env } from '#lib/env.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { getDemoPerson } from '#lib/service/sign-in.ts'
import { currentAddress } from './address.ts'
import { currentNow } from './clock.ts'
import { beginSession } from './session.ts'

/** Whether this process runs the demonstration. */
export function isDemo(): boolean {
  return env().ROOSTWRIGHT_DEMO
}

/** Begins a session as one of the invented people. */
export async function signInAsDemo(email: string): Promise<void> {
  if (!isDemo()) throw new Failure('forbidden', { rule: 'demo-only' })
  const [address, now] = await Promise.all([currentAddress(), currentNow()])
  await beginSession(await getDemoPerson(email, { address, now }))
}

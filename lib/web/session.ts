/**
 * Who is asking, and how a session begins and ends.
 * Promise: the actor's roles come from the records at each request, once a page; sign-in and sign-out work before any
 * JavaScript, because the cookie is set on the server.
 */
import 'server-only'
import { cookies, headers } from 'next/headers'
import { redirect } from 'next/navigation'
import { getServerSession } from 'next-auth'
import { encode } from 'next-auth/jwt'
import { cache } from 'react'
import type { PersonActor } from '#lib/authz/actor.ts'
import { env } from '#lib/env.ts'
import { findActor } from '#lib/service/sign-in.ts'
import { authOptions, SESSION_SECONDS_MAX } from './auth-options.ts'
import { paths } from './paths.ts'

/** The signed-in person with her roles of this moment; undefined for nobody. */
export const currentActor = cache(async (): Promise<PersonActor | undefined> => {
  const session = await getServerSession(authOptions())
  if (session?.personId === undefined || session.epoch === undefined) return undefined
  return findActor(session.personId, session.epoch)
})

/** Asks again, outside this request, who the session is: for answers that outlast it. */
export async function currentSession(): Promise<
  { readonly personId: number; readonly who: () => Promise<PersonActor | undefined> } | undefined
> {
  const { personId, epoch } = (await getServerSession(authOptions())) ?? {}
  if (personId === undefined || epoch === undefined) return undefined
  return { personId, who: () => findActor(personId, epoch) }
}

/** The signed-in person; sends anybody else to the sign-in page, and back here afterwards. */
export async function requireActor(): Promise<PersonActor> {
  return (await currentActor()) ?? (await toSignIn())
}

/** Leaves for the sign-in page with the address that was asked for (proxy.ts notes it). */
export async function toSignIn(): Promise<never> {
  const asked = (await headers()).get('x-asked-path')
  return redirect(paths.signIn(asked ?? undefined))
}

/** Whether this browser is one that several people share. */
export const isSharedSession = cache(
  async (): Promise<boolean> => (await getServerSession(authOptions()))?.isShared === true,
)

/** From now on whoever enters something here says who she is; it ends with the session. */
export async function shareSession(): Promise<void> {
  const { personId, epoch } = (await getServerSession(authOptions())) ?? {}
  if (personId !== undefined && epoch !== undefined) await beginSession({ personId, epoch, isShared: true })
}

/** Begins a session for somebody whose password was just checked. */
export async function beginSession(person: {
  readonly personId: number
  readonly epoch: number
  readonly isShared?: boolean
}): Promise<void> {
  const value = await encode({
    token: {
      sub: String(person.personId),
      epoch: person.epoch,
      ...(person.isShared === true && { shared: true }),
    },
    secret: env().NEXTAUTH_SECRET,
    maxAge: SESSION_SECONDS_MAX,
  })
  const jar = await cookies()
  jar.set(cookieName(), value, {
    httpOnly: true,
    sameSite: 'lax',
    path: '/',
    secure: isSecure(),
    maxAge: SESSION_SECONDS_MAX,
  })
}

/** Ends the session of this browser. */
export async function endSession(): Promise<void> {
  const jar = await cookies()
  jar.set(cookieName(), '', { httpOnly: true, sameSite: 'lax', path: '/', secure: isSecure(), maxAge: 0 })
}

/** next-auth's own name for the cookie, so that both find it. */
function cookieName(): string {
  return isSecure() ? '__Secure-next-auth.session-token' : 'next-auth.session-token'
}

function isSecure(): boolean {
  return env().NEXTAUTH_URL.startsWith('https:')
}

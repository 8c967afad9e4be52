'use client'

import { useEffect } from 'react'

const EVERY_MS = 30_000
const SIGNED_OUT = 401

/** A session that somebody ended takes along what this phone kept; one that ran out leaves the entries that wait. */
async function forget(said: { readonly rule?: string }): Promise<void> {
  const { wipeAll, wipePages } = await import('#app/(desk)/round/_parts/kept.ts')
  await (said.rule === 'session-ended' ? wipeAll() : wipePages()).catch(() => undefined)
}

/** An open page leaves for the sign-in page within a minute once its session was ended elsewhere. */
export function SessionWatch({ signIn }: { readonly signIn: string }) {
  useEffect(() => {
    const look = async () => {
      try {
        const answer = await fetch('/api/me', { cache: 'no-store' })
        if (answer.status !== SIGNED_OUT) return
        await forget(await answer.json())
        const here = `${window.location.pathname}${window.location.search}`
        window.location.replace(`${signIn}?to=${encodeURIComponent(here)}`)
      } catch {
        // No connection says nothing about the session.
      }
    }
    const timer = setInterval(look, EVERY_MS)
    window.addEventListener('focus', look)
    return () => {
      clearInterval(timer)
      window.removeEventListener('focus', look)
    }
  }, [signIn])
  return null
}

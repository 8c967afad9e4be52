'use client'

import { useEffect } from 'react'

const EVERY_MS = 30_000
const SIGNED_OUT = 401

/** An open page leaves for the sign-in page within a minute once its session was ended elsewhere. */
export function SessionWatch({ signIn }: { readonly signIn: string }) {
  useEffect(() => {
    const look = async () => {
      try {
        const { status } = await fetch('/api/me', { cache: 'no-store' })
        const here = `${window.location.pathname}${window.location.search}`
        if (status === SIGNED_OUT) window.location.replace(`${signIn}?to=${encodeURIComponent(here)}`)
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

'use client'

import { useRouter } from 'next/navigation'
import { useEffect } from 'react'

type Props = { readonly from: string }

const GATHER_MS = 150
const APART_MS = 1000
const AGAIN_MS_MIN = 2000
const AGAIN_MS_MAX = 60_000

/**
 * Reads the page again when something on it changed. Without it, or without the stream, every page shows the same at
 * its next loading. Only a page in sight follows: a browser opens few connections to one server.
 */
export function Live({ from }: Props) {
  const router = useRouter()
  useEffect(() => {
    let source: EventSource | undefined
    let gathering: ReturnType<typeof setTimeout> | undefined
    let again: ReturnType<typeof setTimeout> | undefined
    let readAt = 0
    let waits = AGAIN_MS_MIN
    let isBehind = false

    const read = () => {
      gathering = undefined
      readAt = performance.now()
      router.refresh()
    }
    const changed = () => {
      gathering ??= setTimeout(read, Math.max(GATHER_MS, readAt + APART_MS - performance.now()))
    }
    const open = () => {
      clearTimeout(again)
      if (source !== undefined || document.visibilityState === 'hidden') return
      source = new EventSource(from)
      source.onopen = () => {
        waits = AGAIN_MS_MIN
        if (isBehind) changed()
        isBehind = false
      }
      source.onmessage = changed
      source.onerror = () => {
        isBehind = true
        if (source?.readyState !== EventSource.CLOSED) return
        close()
        again = setTimeout(open, waits)
        waits = Math.min(waits * 2, AGAIN_MS_MAX)
      }
    }
    const close = () => {
      source?.close()
      source = undefined
    }
    const seen = () => {
      if (document.visibilityState === 'visible') return open()
      isBehind = true
      close()
    }
    open()
    document.addEventListener('visibilitychange', seen)
    return () => {
      document.removeEventListener('visibilitychange', seen)
      clearTimeout(gathering)
      clearTimeout(again)
      close()
    }
  }, [from, router])
  return null
}

'use client'

import { createContext, type ReactNode, useContext, useEffect } from 'react'
import { Button } from '#app/_ui/button.tsx'
import { OFFLINE, shownAsItWas, waitingWords } from '#lib/words/offline.ts'
import { TAP } from '#lib/words/round-entry.ts'
import { type Queue, useQueue } from './use-queue.ts'
import { useTakeBackKey } from './use-take-back-key.ts'

const Shared = createContext<Queue | undefined>(undefined)

/** The queue of this page; undefined without JavaScript's stores, where every tap is a form. */
export const useTaps = () => useContext(Shared)

const KEEP_EVERY_MS = 60_000
/** Which drawing is kept, and since when. */
let kept = { drawnAt: '', at: Number.NEGATIVE_INFINITY }

type Props = {
  readonly personId: number
  readonly centreId: number
  /** When this page was drawn, in words: how old it is without signal. */
  readonly drawnAt: string
  readonly signIn: string
  /** The address under which the round opens without signal. */
  readonly page: string
  readonly children: ReactNode
}

/** Every tap below goes into the phone's queue first, and the round is kept for when there is no signal. */
export function RoundQueue({ personId, centreId, drawnAt, signIn, page, children }: Props) {
  const queue = useQueue(personId)
  useEffect(() => {
    if (!('serviceWorker' in navigator)) return
    navigator.serviceWorker
      .register('/sw.js')
      .then(() => navigator.serviceWorker.ready)
      .then(({ active }) => {
        if (kept.drawnAt === drawnAt || performance.now() < kept.at + KEEP_EVERY_MS) return
        kept = { drawnAt, at: performance.now() }
        active?.postMessage({ keep: { page, files: filesOfPage() } })
      })
      .catch(() => {
        // Without it the round needs signal to open; entries wait all the same.
      })
  }, [page, drawnAt])
  return (
    <Shared value={queue}>
      {children}
      {queue !== undefined && (
        <QueueBar queue={queue} centreId={centreId} drawnAt={drawnAt} signIn={signIn} />
      )}
    </Shared>
  )
}

/** What draws this page: scripts, styles, fonts that the build made. */
function filesOfPage(): string[] {
  const named = [...document.querySelectorAll<HTMLScriptElement | HTMLLinkElement>('script[src], link[href]')]
  const loaded = performance.getEntriesByType('resource').map(({ name }) => name)
  const all = [...named.map(one => ('src' in one ? one.src : one.href)), ...loaded]
  return [...new Set(all)].filter(one => new URL(one, location.href).pathname.startsWith('/_next/static/'))
}

type BarProps = Pick<Props, 'centreId' | 'drawnAt' | 'signIn'> & { readonly queue: Queue }

function QueueBar({ queue, centreId, drawnAt, signIn }: BarProps) {
  const { last, state } = queue
  const waiting = queue.taps.filter(tap => tap.refused === undefined)
  const refused = queue.taps.filter(tap => tap.refused !== undefined)
  const takeLastBack = () => queue.takeBack(centreId)
  const listens = useTakeBackKey(last === undefined ? undefined : takeLastBack)
  return (
    <div className="tap-bar">
      <div role="status">
        {state === 'unreachable' && <p className="first">{shownAsItWas(drawnAt)}</p>}
        {waiting.length > 0 && state !== 'sent' && <p>{waitingWords(waiting.length)}</p>}
        {state === 'signed-out' && (
          <p>
            {OFFLINE.signedOut}. <a href={signIn}>{OFFLINE.signIn}</a>
          </p>
        )}
        {last !== undefined && (
          <p>
            {last.words}, {waiting.some(tap => tap.key === last.key) ? OFFLINE.waits : OFFLINE.saved}
          </p>
        )}
      </div>
      {last !== undefined && (
        <Button type="button" onClick={takeLastBack} {...(listens && { keys: 'Ctrl Z' })}>
          {TAP.takeBack}
        </Button>
      )}
      {refused.map(tap => (
        <div key={tap.key} role="alert">
          <p>
            <b>{OFFLINE.notTaken}</b>: {tap.words}. {tap.refused}
          </p>
          <Button type="button" onClick={() => queue.putAway(tap.key)}>
            {OFFLINE.putAway}
          </Button>
        </div>
      ))}
    </div>
  )
}

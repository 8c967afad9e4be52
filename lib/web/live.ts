/**
 * The event stream of one open page: what changed, as server-sent events.
 * Promise: it ends when the session has ended (looked at with each thing told, and every quarter of a minute), when
 * the page is gone, after an hour (the browser asks again, and is asked who it is), and when the server stops.
 */
import 'server-only'
import { Failure } from '#lib/kernel/failure.ts'
import { type Follower, type Heard, type Live, startLive } from '#lib/service/live.ts'
import { logFault } from '#lib/service/log.ts'
import { currentSession } from './session.ts'

const BREATH_MS = 15_000
const BREATHS_MAX = 240
/** Tabs of one person; the oldest gives way. */
const STREAMS_MAX = 12

const kept = globalThis as { roostwrightLive?: Live; roostwrightStreams?: Map<number, Follower[]> }

/** The listener of this process, begun at first use. */
function live(): Live {
  kept.roostwrightLive ??= startLive(logFault)
  return kept.roostwrightLive
}

/** Ends every stream and stops listening; with nothing begun, nothing happens. */
export async function stopLive(): Promise<void> {
  await kept.roostwrightLive?.stop()
}

/** Follows what changes for the session of this request; `nouns` empty follows everything she may see. */
export async function eventStream(nouns: readonly string[], gone: AbortSignal): Promise<Response> {
  const session = await currentSession()
  if (session === undefined || (await session.who()) === undefined) throw new Failure('signed-out')
  const text = new TextEncoder()
  /** Lets go of it; `end` also tells the browser, which a stream that was given up can't be. */
  let close = () => {}
  let end = () => {}
  const body = new ReadableStream<Uint8Array>({
    start(controller) {
      let breaths = 0
      let isOpen = true
      // Whoever was told in the same moment may have gone meanwhile.
      const say = (words: string) => isOpen && controller.enqueue(text.encode(words))
      const follower: Follower = {
        ...session,
        hear: heard => {
          if (isAskedFor(heard, nouns)) say(`data: ${JSON.stringify(heard)}\n\n`)
        },
        end: () => end(),
      }
      const unfollow = live().follow(follower)
      const breathe = setInterval(() => {
        breaths++
        if (breaths >= BREATHS_MAX) end()
        else
          live()
            .lookAgain(follower)
            .then(isStill => isStill && say(': here\n\n'), logFault)
      }, BREATH_MS)
      close = () => {
        if (!isOpen) return
        isOpen = false
        clearInterval(breathe)
        unfollow()
        leave(follower)
      }
      end = () => {
        if (isOpen) controller.close()
        close()
      }
      enter(follower)
      gone.addEventListener('abort', () => end())
      say('retry: 1000\n\n')
    },
    cancel: () => close(),
  })
  return new Response(body, {
    headers: {
      'content-type': 'text/event-stream; charset=utf-8',
      'cache-control': 'no-store, no-transform',
      // A proxy in front that gathers answers would keep every event back.
      'x-accel-buffering': 'no',
    },
  })
}

function isAskedFor({ noun }: Heard, nouns: readonly string[]): boolean {
  return nouns.length === 0 || noun === 'everything' || nouns.includes(noun)
}

function streamsOf(personId: number | null): Follower[] {
  kept.roostwrightStreams ??= new Map()
  const streams = kept.roostwrightStreams.get(personId ?? 0) ?? []
  kept.roostwrightStreams.set(personId ?? 0, streams)
  return streams
}

function enter(follower: Follower): void {
  const streams = streamsOf(follower.personId)
  streams.push(follower)
  if (streams.length > STREAMS_MAX) streams[0]?.end()
}

function leave(follower: Follower): void {
  const rest = streamsOf(follower.personId).filter(one => one !== follower)
  if (rest.length === 0) kept.roostwrightStreams?.delete(follower.personId ?? 0)
  else kept.roostwrightStreams?.set(follower.personId ?? 0, rest)
}

/** The worker's text, run against stores and a network of the test: what a phone shows when its signal goes. */
import vm from 'node:vm'
import { expect, it } from 'vitest'
import { serviceWorker } from '#lib/web/service-worker.ts'

const ORIGIN = 'https://coast.example'
const PAGE = '/round/1?as=list'

type Answer = {
  readonly ok: boolean
  readonly status: number
  readonly redirected: boolean
  readonly headers: Headers
  readonly blob: () => Promise<Blob>
}
type Event = {
  readonly data?: unknown
  readonly ports?: readonly never[]
  readonly request?: { readonly url: string; readonly method: string; readonly mode: string }
  readonly waitUntil?: (work: Promise<unknown>) => void
  readonly respondWith?: (answer: Promise<Response>) => void
}

/** A store that, as a browser's does, drops what it has of an address before it reads what is put there. */
function newStores() {
  const stores = new Map<string, Map<string, Blob>>()
  const addressOf = (what: string | { url: string }) =>
    new URL(typeof what === 'string' ? what : what.url, ORIGIN).href
  const open = async (name: string) => {
    const held = stores.get(name) ?? new Map<string, Blob>()
    stores.set(name, held)
    return {
      put: async (what: string, answer: { blob: () => Promise<Blob> }) => {
        held.delete(addressOf(what))
        held.set(addressOf(what), await answer.blob())
      },
      keys: async () => [...held.keys()].map(url => ({ url })),
      add: async () => undefined,
      delete: async (what: { url: string }) => held.delete(what.url),
    }
  }
  const match = async (what: string | { url: string }) => {
    for (const held of stores.values()) {
      const found = held.get(addressOf(what))
      if (found !== undefined) return new Response(found)
    }
    return undefined
  }
  return {
    open,
    match,
    has: async (name: string) => stores.has(name),
    delete: async (name: string) => stores.delete(name),
  }
}

function startWorker() {
  const handlers = new Map<string, (event: Event) => void>()
  let network: () => Promise<Answer> = () => Promise.reject(new TypeError('no signal'))
  const self = {
    location: { origin: ORIGIN },
    clients: { claim: async () => undefined },
    skipWaiting: async () => undefined,
    addEventListener: (name: string, handler: (event: Event) => void) => handlers.set(name, handler),
  }
  vm.runInNewContext(serviceWorker({ title: 'No connection', sentence: 'Not loaded here', next: 'Ring' }), {
    self,
    caches: newStores(),
    fetch: () => network(),
    Response,
    URL,
    setTimeout: () => 0,
  })
  return {
    answerWith: (next: () => Promise<Answer>) => {
      network = next
    },
    keep: async () => {
      let work: Promise<unknown> = Promise.resolve()
      const waitUntil = (begun: Promise<unknown>) => {
        work = begun
      }
      handlers.get('message')?.({ data: { keep: { page: PAGE, files: [] } }, ports: [], waitUntil })
      await work.catch(() => undefined)
    },
    open: async () => {
      let answer: Promise<Response> | undefined
      const request = { url: `${ORIGIN}${PAGE}`, method: 'GET', mode: 'navigate' }
      handlers.get('fetch')?.({
        request,
        respondWith: given => {
          answer = given
        },
      })
      const got = await answer
      return { status: got?.status, text: await got?.text() }
    },
  }
}

const whole = (text: string) => async (): Promise<Answer> => ({
  ok: true,
  status: 200,
  redirected: false,
  headers: new Headers({ 'content-type': 'text/html' }),
  blob: async () => new Blob([text]),
})
const noSignal = () => Promise.reject(new TypeError('no signal'))

it('says that a round was never loaded here, and shows one that was', async () => {
  const worker = startWorker()
  expect((await worker.open()).status).toBe(503)
  worker.answerWith(whole('the round at nine'))
  await worker.keep()
  worker.answerWith(noSignal)
  expect(await worker.open()).toEqual({ status: 200, text: 'the round at nine' })
})

it('keeps the round it has when the signal goes while a newer one is read', async () => {
  const worker = startWorker()
  worker.answerWith(whole('the round at nine'))
  await worker.keep()
  worker.answerWith(async () => ({ ...(await whole('')()), blob: noSignal }))
  await worker.keep()
  worker.answerWith(noSignal)
  expect(await worker.open()).toEqual({ status: 200, text: 'the round at nine' })
})

/**
 * The service worker as text, so that a route of the program serves it.
 * Promise: keeps the last loaded list of each round, under its own address, and the files that draw it, nothing else;
 * the network always comes first. What is posted passes by: entries have a queue of their own on the page.
 */
import 'server-only'

/** Names that the page wipes too (app/(desk)/round/_parts/kept.ts). */
const PAGES = 'round-pages'
const FILES = 'round-files'

/** How long a page is waited for while a kept one could be shown. */
const PATIENCE_MS = 6000

type Words = { readonly title: string; readonly sentence: string; readonly next: string }

export function serviceWorker({ title, sentence, next }: Words): string {
  const nothing = `<!doctype html><html lang="en"><meta name="viewport" content="width=device-width"><title>${title}</title><h1>${sentence}</h1><p>${next}</p></html>`
  return `'use strict'
/** So often was everything of the round taken off this phone. */
let wipes = 0
const keptPage = url => {
  const found = /^\\/round\\/(\\d+)$/.exec(url.pathname)
  return found === null ? undefined : '/round/' + found[1] + '?as=list'
}
self.addEventListener('install', event => event.waitUntil(self.skipWaiting()))
self.addEventListener('activate', event => event.waitUntil(self.clients.claim()))
self.addEventListener('message', event => {
  const { keep, isWiped } = event.data ?? {}
  if (isWiped === true) {
    wipes++
    event.waitUntil(wipe())
  }
  if (keep !== undefined) event.waitUntil(keepRound(keep).then(() => event.ports[0]?.postMessage('kept')))
})
self.addEventListener('fetch', event => {
  const { request } = event
  const url = new URL(request.url)
  if (request.method !== 'GET' || url.origin !== self.location.origin) return
  if (request.mode === 'navigate' && (url.pathname === '/round' || keptPage(url) !== undefined)) {
    event.respondWith(openRound(request, keptPage(url)))
  } else if (url.pathname.startsWith('/_next/static/')) {
    event.respondWith(fetch(request).catch(async () => (await find(request)) ?? Response.error()))
  }
})
const find = what => caches.match(what, { ignoreVary: true })
async function findRound(page) {
  if (page !== undefined) return find(page)
  // Opening a store that is not there would leave an empty one behind.
  if (!(await caches.has(${JSON.stringify(PAGES)}))) return undefined
  const [any] = await (await caches.open(${JSON.stringify(PAGES)})).keys()
  return any === undefined ? undefined : find(any)
}
async function openRound(request, page) {
  const kept = await findRound(page)
  // A server in trouble is no better than none, while there is a kept page to show.
  const answer = fetch(request).catch(() => undefined)
    .then(got => (got !== undefined && got.status >= 500 && kept !== undefined ? undefined : got))
  const late = new Promise(done => setTimeout(done, ${PATIENCE_MS}))
  const first = kept === undefined ? await answer : await Promise.race([answer, late])
  return first ?? kept ?? new Response(${JSON.stringify(nothing)}, {
    status: 503, headers: { 'content-type': 'text/html; charset=utf-8' } })
}
async function keepRound({ page, files }) {
  const asked = wipes
  const answer = await fetch(page, { credentials: 'same-origin' })
  if (!answer.ok || answer.redirected || wipes !== asked) return
  // Whole before it takes the place of the one that is kept: with the signal gone half-way both would be lost.
  const whole = new Response(await answer.blob(), { headers: answer.headers })
  const store = await caches.open(${JSON.stringify(FILES)})
  const known = new Set((await store.keys()).map(({ url }) => url))
  await Promise.all(files.filter(file => !known.has(file)).map(file => store.add(file).catch(() => undefined)))
  await (await caches.open(${JSON.stringify(PAGES)})).put(page, whole)
  const wanted = new Set(files)
  const old = (await store.keys()).filter(({ url }) => !wanted.has(url))
  await Promise.all(old.map(file => store.delete(file)))
  // Wiped while it was being kept: it must not outlast that.
  if (wipes !== asked) await wipe()
}
async function wipe() {
  await Promise.all([caches.delete(${JSON.stringify(PAGES)}), caches.delete(${JSON.stringify(FILES)})])
}
`
}

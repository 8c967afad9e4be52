/** People at work, several at once, each through the pages: until they are told to stop or the line goes dead. */
import type { Log } from './log.ts'
import type { Answer, PlainBrowser } from './plain-browser.ts'
import { decoded, filled, formWith, type PlainForm } from './plain-form.ts'

/** Kinds with places at several centres; words that the gazetteer and the list of conditions know. */
const FOUND = [
  { animalTyped: 'blackbird', whereTyped: 'Heskwith lane', wrongTyped: 'cat had it' },
  { animalTyped: 'hedgehog', whereTyped: 'Heskwith lane', wrongTyped: 'maggots' },
  { animalTyped: 'kestrel', whereTyped: 'Heskwith lane', wrongTyped: 'broken leg' },
  { animalTyped: 'woodpigeon', whereTyped: 'Heskwith lane', wrongTyped: 'cat had it' },
  { animalTyped: 'tawny owl', whereTyped: 'Heskwith lane', wrongTyped: 'broken wing' },
] as const
const WRITES_A_PAGE = 4

export type Round = {
  readonly log: Log
  readonly coordinator: PlainBrowser
  readonly carer: PlainBrowser
  readonly animals: readonly { readonly id: number; readonly reference: string }[]
  readonly random: () => number
  /** The two calls that somebody keeps at all night: a new one a blow would bury the desk. */
  readonly kept: Map<'rings' | 'types', number>
  /** Calls whose option was being taken and whose animal has not gone on yet: left alone, they would fill the coast. */
  readonly underway: Set<string>
  /** What went wrong, in words, as it goes wrong. */
  readonly trouble: string[]
  readonly stopped: () => boolean
}

/** Everybody works until told to stop; whom something stops earlier says so at once. */
export async function work(round: Round): Promise<void> {
  const people = [answerCalls, answerCalls, ringBack, noteAndWeigh, noteAndWeigh, typeOn]
  await Promise.all(
    people.map(async person => {
      try {
        while (!round.stopped()) await person(round)
      } catch (thrown) {
        if (!round.stopped()) round.trouble.push(`${person.name}: ${inWords(thrown)}`)
      }
    }),
  )
}

function inWords(thrown: unknown): string {
  if (!(thrown instanceof Error)) return String(thrown)
  return thrown.cause instanceof Error ? `${thrown.message}: ${thrown.cause.message}` : thrown.message
}

async function takeCall({ log, coordinator }: Round): Promise<number> {
  const { html } = await coordinator.get('/calls')
  // Before it stands the form that signs out.
  const button = formWith(html, [], { after: html.indexOf('<main') })
  const answer = await log.send(
    'call taken',
    ({ to }) => idOf(to),
    () => coordinator.post('/calls', filled(needed(button, 'button that takes a call'), {})),
  )
  return Number(idOf(answer.to))
}

const idOf = (address: string) => /\/calls\/(\d+)/.exec(address)?.[1] ?? ''

/** What a blow cut short goes on first; else a call from the first question to a place, and the animal's arrival there. */
async function answerCalls(round: Round): Promise<void> {
  const [cut] = round.underway
  if (cut === undefined) return answerCall(round)
  round.underway.delete(cut)
  await takenUpAgain(round, cut, page => seeThrough(round, page))
}

async function answerCall(round: Round): Promise<void> {
  const { log, coordinator, random, stopped } = round
  const call = await takeCall(round)
  const page = `/calls/${call}`
  const empty = await sheetOf(coordinator, page)
  const heard = log.words('sheet kept')
  await log.send('sheet kept', `${call}|${heard}`, () =>
    coordinator.post(`/api${page}/sheet`, filled(empty, { notes: heard })),
  )
  const found = FOUND[Math.floor(random() * FOUND.length)] ?? FOUND[0]
  const facts = { ...found, notes: log.words('sheet kept') }
  await log.send('facts kept', `${call}|${found.animalTyped}`, () =>
    coordinator.post(page, filled(empty, facts, ['do', 'rank'])),
  )
  const ranked = await sheetOf(coordinator, page)
  const take = ranked.buttons.find(([name]) => name === 'take')
  if (take === undefined || stopped()) return
  const agreed = [...ranked.names].filter(name => name.startsWith('agreedBy-'))
  const typed = Object.fromEntries(agreed.map(name => [name, 'The one who answered']))
  await takenUpAgain(round, page, async () => {
    const answer = await log.send('option taken', String(call), () =>
      coordinator.post(page, filled(ranked, typed, take)),
    )
    if (answered(answer).status === 303) await seeThrough(round, page)
  })
}

/** What a blow cuts is there for whoever works after it. */
async function takenUpAgain(
  { underway }: Round,
  page: string,
  go: (page: string) => Promise<void>,
): Promise<void> {
  try {
    await go(page)
  } catch (thrown) {
    underway.add(page)
    throw thrown
  }
}

function answered(answer: Answer): Answer {
  if (answer.status >= 500) throw new Error(`status ${answer.status}`)
  return answer
}

/** From the place that was taken to the end of the stay, from wherever it stands. */
async function seeThrough(round: Round, callPage: string): Promise<void> {
  const { log, coordinator } = round
  const { html } = answered(await coordinator.get(callPage))
  const reference = decoded(/class="ref"[^>]*>([^<]+)/.exec(html)?.[1] ?? '')
  if (reference === '') return
  const page = addressOf(reference)
  const form = formWith(answered(await coordinator.get(page)).html, ['casualtyId', 'enclosureId', 'centreId'])
  const id = form?.fields.find(([name]) => name === 'casualtyId')?.[1]
  if (form !== undefined && id !== undefined) {
    const answer = await log.send('arrival recorded', id, () => coordinator.post(page, filled(form, {})))
    if (answered(answer).status === 303) await askPractice(round, page)
  }
  await recordOutcome(round, page)
}

/** A practice is asked about it and says no, on the phone. */
async function askPractice({ log, coordinator }: Round, page: string): Promise<void> {
  const form = formWith((await coordinator.get(page)).html, ['casualtyId', 'practiceId', 'what'])
  if (form === undefined) return
  const put = await log.send(
    'practice asked',
    ({ to }) => askOf(to),
    () => coordinator.post(page, filled(form, { what: 'Wants a look today' })),
  )
  const ask = askOf(put.to)
  const answer = formWith((await coordinator.get(`/asks/${ask}`)).html, ['askId', 'say', 'by'])
  if (answer === undefined) return
  const reason = log.words('answer recorded')
  const said = { say: 'no', by: 'The vet on duty', reason }
  await log.send('answer recorded', `${ask}|${reason}`, () =>
    coordinator.post(`/asks/${ask}`, filled(answer, said)),
  )
}

const askOf = (address: string) => /\/asks\/(\d+)/.exec(address)?.[1] ?? ''

/** It goes on to somebody outside, or the centres would be full before the hundredth blow. */
async function recordOutcome({ log, coordinator }: Round, page: string): Promise<void> {
  const form = formWith(answered(await coordinator.get(page)).html, ['casualtyId', 'alive', 'whereNow'])
  const id = form?.fields.find(([name]) => name === 'casualtyId')?.[1]
  if (form === undefined || id === undefined) return
  const outcome = { alive: 'alive', whereNow: 'with somebody outside' }
  answered(await log.send('outcome recorded', id, () => coordinator.post(page, filled(form, outcome))))
}

async function keptCall(round: Round, whose: 'rings' | 'types'): Promise<number> {
  const call = round.kept.get(whose) ?? (await takeCall(round))
  round.kept.set(whose, call)
  return call
}

/** Promises to ring back, again and again, and does. */
async function ringBack(round: Round): Promise<void> {
  const { log, coordinator, stopped } = round
  const page = `/calls/${await keptCall(round, 'rings')}`
  const sheet = await sheetOf(coordinator, page)
  while (!stopped()) {
    const what = log.words('call-back promised')
    await log.send('call-back promised', what, () =>
      coordinator.post(
        page,
        filled(sheet, { callBackMinutes: '20', callBackWhat: what }, ['do', 'call-back']),
      ),
    )
    const { html } = await coordinator.get('/calls')
    const at = html.indexOf(what)
    if (at === -1 || stopped()) continue
    const rang = needed(formWith(html, ['callBackId'], { after: at }), 'button of a call-back')
    const said = log.words('call-back made')
    await log.send('call-back made', said, () => coordinator.post('/calls', filled(rang, { said })))
  }
}

/** Notes and weights on an animal in care. */
async function noteAndWeigh({ log, carer, animals, random, stopped }: Round): Promise<void> {
  const animal = animals[Math.floor(random() * animals.length)]
  if (animal === undefined) throw new Error('nobody is in care')
  const page = addressOf(animal.reference)
  const { html } = await carer.get(page)
  const note = needed(formWith(html, ['casualtyId', 'words', 'at'], { without: 'picture' }), 'form of a note')
  const weight = needed(formWith(html, ['casualtyId', 'grams'], { without: 'checkId' }), 'form of a weight')
  for (let nth = 0; nth < WRITES_A_PAGE && !stopped(); nth++) {
    const words = log.words('note')
    await log.send('note', words, () => carer.post(page, filled(note, { words })))
    const grams = log.grams()
    await log.send('weight', `${animal.id}|${grams}`, () => carer.post(page, filled(weight, { grams })))
  }
}

/** One long sheet, kept at every pause of the typing. */
async function typeOn(round: Round): Promise<void> {
  const { log, coordinator, stopped } = round
  const call = await keptCall(round, 'types')
  const sheet = await sheetOf(coordinator, `/calls/${call}`)
  while (!stopped()) {
    const notes = log.words('sheet kept')
    await log.send('sheet kept', `${call}|${notes}`, () =>
      coordinator.post(`/api/calls/${call}/sheet`, filled(sheet, { notes })),
    )
  }
}

async function sheetOf(browser: PlainBrowser, page: string): Promise<PlainForm> {
  const { html, status } = await browser.get(page)
  return needed(formWith(html, ['animalTyped']), `sheet of ${page} (status ${status})`)
}

const addressOf = (reference: string) => `/casualties/${encodeURIComponent(reference)}`

function needed<T>(found: T | undefined, what: string): T {
  if (found === undefined) throw new Error(`the page has no ${what}`)
  return found
}

import { describe, expect, it } from 'vitest'
import { serviceComplaints } from './services.ts'
import { sourcesIn } from './source.ts'

describe('services', () => {
  it('all demand a right of whoever asks', () => {
    const services = sourcesIn('lib/service/')
    expect(services.length).toBeGreaterThan(0)
    expect(services.flatMap(serviceComplaints)).toEqual([])
  })
})

describe('a planted service', () => {
  const complaintsAbout = (text: string) => serviceComplaints({ path: 'lib/service/x.ts', text })

  it.each([
    ['export async function listCalls(actor: Actor) { return list() }', 'never calls demand'],
    ['export async function listCalls(scope: Scope) { demand(scope) }', 'takes neither an actor nor a grant'],
    ['export const listCalls = async (actor: Actor) => list()', 'never calls demand'],
    ['export const listCalls = cache(async () => list())', 'takes neither'],
    [
      "import { total } from './sum.ts'\nexport async function a(actor: Actor) { return total(1, actor) }",
      'never calls demand',
    ],
    ['/** System: a timer. */\nexport function expire() { return sweep() }', 'never calls demand'],
    [
      "import { list } from '#lib/db/call.ts'\n/** No rows: adds up. */\nexport function total(n: number) { return list(n) }",
      'in a file that reads rows',
    ],
  ])('without its gate is found: %s', (text, complaint) => {
    expect(complaintsAbout(text).join()).toContain(complaint)
  })

  it.each([
    'export async function listCalls(actor: Actor) { return list(demand(actor, "call.read")) }',
    'export async function a(actor: Actor) { return b(actor) }\nfunction b(actor: Actor) { demand(actor, "call.read") }',
    'export async function write(grant: Grant<"call.take">) { return list(grant) }',
    '/** System: a timer. */\nexport function expire() { demand(systemActor("x"), "system.run") }',
    '/** No rows: adds up. */\nexport function total(n: number) { return n }',
    "import { getCall } from './call.ts'\nexport async function a(actor: Actor) { return getCall(actor, 1) }",
    'function helper() { return 1 }\nexport const LIMIT = 4\nexport type X = number',
  ])('with its gate is left alone: %s', text => {
    expect(complaintsAbout(text)).toEqual([])
  })
})

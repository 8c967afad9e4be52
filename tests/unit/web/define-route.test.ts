import { beforeAll, describe, expect, it } from 'vitest'
import { z } from 'zod'
import { Failure } from '#lib/kernel/failure.ts'
import { definePublicRoute, queryObject } from '#lib/web/define-route.ts'
import { HOME, stubSurroundings } from './surroundings.ts'

beforeAll(stubSurroundings)

const nowhere = { params: Promise.resolve({ id: '4', rest: ['a', 'b'] }) }
const get = (path: string) => new Request(`${HOME}${path}`)
const post = (body: string, origin?: string) =>
  new Request(`${HOME}/api/x`, {
    method: 'POST',
    body,
    headers: { host: 'desk.example.org', ...(origin !== undefined && { origin }) },
  })

describe('a route', () => {
  it('reads its query and answers JSON', async () => {
    const route = definePublicRoute({
      query: z.object({ page: z.coerce.number().int().min(1) }),
      handler: async ({ query, params }) => ({ json: { page: query.page, id: params['id'] } }),
    })
    const answer = await route(get('/api/x?page=3'), nowhere)
    expect([answer.status, await answer.json()]).toEqual([200, { page: 3, id: '4' }])
  })

  it('has no parts where its address has none, though Next then gives nothing at all', async () => {
    const route = definePublicRoute({ handler: async ({ params }) => ({ json: params }) })
    const answer = await route(get('/api/x'), { params: Promise.resolve(undefined) })
    expect([answer.status, await answer.json()]).toEqual([200, {}])
  })

  it('says a refused query as problem details', async () => {
    const route = definePublicRoute({
      query: z.object({ page: z.coerce.number().min(1) }),
      handler: async () => ({ json: {} }),
    })
    const answer = await route(get('/api/x?page=0'), nowhere)
    expect(answer.headers.get('content-type')).toBe('application/problem+json')
    expect([answer.status, await answer.json()]).toMatchObject([
      422,
      { code: 'invalid', errors: [{ field: 'page', say: '1 or more' }] },
    ])
  })

  it('answers a table for a spreadsheet under a plain name', async () => {
    const route = definePublicRoute({
      handler: async () => ({ csv: 'a,b\n1,2\n', filename: 'who "is" where.csv' }),
    })
    const answer = await route(get('/api/x'), nowhere)
    expect(answer.headers.get('content-disposition')).toBe('attachment; filename="who--is--where.csv"')
    expect([answer.headers.get('content-type'), await answer.text()]).toEqual([
      'text/csv; charset=utf-8',
      'a,b\n1,2\n',
    ])
  })

  it('passes a ready response and the status of a refusal', async () => {
    const ready = definePublicRoute({ handler: async () => new Response('x', { status: 202 }) })
    const refused = definePublicRoute({
      handler: async () => {
        throw new Failure('conflict')
      },
    })
    expect([(await ready(get('/'), nowhere)).status, (await refused(get('/'), nowhere)).status]).toEqual([
      202, 409,
    ])
  })
})

describe('a write', () => {
  const route = definePublicRoute({
    body: z.object({ name: z.string() }),
    handler: async ({ body }) => ({ json: body, status: 201 }),
  })
  const statusOf = async (body: string, origin?: string) => (await route(post(body, origin), nowhere)).status

  it('is taken from our own pages only', async () => {
    const own = await statusOf('{"name":"x"}', HOME)
    const foreign = await statusOf('{"name":"x"}', 'https://evil.example')
    const none = await statusOf('{"name":"x"}')
    const odd = await statusOf('{"name":"x"}', 'null')
    expect([own, foreign, none, odd]).toEqual([201, 403, 403, 403])
  })

  it('that is no JSON is refused', async () => {
    expect(await statusOf('{', HOME)).toBe(422)
  })
})

describe('queryObject', () => {
  it('makes a list of a name said several times', () => {
    expect(queryObject(new URLSearchParams('a=1&b=2&a=3'))).toEqual({ a: ['1', '3'], b: '2' })
  })
})

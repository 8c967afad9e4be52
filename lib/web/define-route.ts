/**
 * The one way to make a route handler: JSON and CSV.
 * Promise: resolves who asks, reads query and body through a schema, answers JSON or CSV, and says failures as problem
 * details with our code. A write from another site is refused. Holds no rule and no permission.
 */
import 'server-only'
import { unstable_rethrow } from 'next/navigation'
import type { Actor } from '#lib/authz/actor.ts'
import { parse, type Schema } from '#lib/domain/parse.ts'
import { env } from '#lib/env.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { currentNow } from './clock.ts'
import { problemDetails } from './errors.ts'
import { currentActor, currentSession, isSharedSession } from './session.ts'

/** What a handler gives back: data, a table for a spreadsheet, or a ready response. */
export type Answer =
  | { readonly json: unknown; readonly status?: number }
  | { readonly csv: string; readonly filename: string }
  | Response

type Params = Readonly<Record<string, string>>
/** Next gives no parts at all to a route whose address has none. */
type Context = { readonly params: Promise<Record<string, string | string[] | undefined> | undefined> }
type Asked<Q, B> = {
  readonly query: Q
  readonly body: B
  readonly params: Params
  readonly now: Date
  readonly request: Request
}

type RouteSpec<Q, B, A> = {
  readonly query?: Schema<Q>
  readonly body?: Schema<B>
  readonly handler: (asked: Asked<Q, B> & A) => Promise<Answer>
}

export type RouteHandler = (request: Request, context: Context) => Promise<Response>

/** A route for signed-in people. */
export function defineRoute<Q = undefined, B = undefined>(
  spec: RouteSpec<Q, B, { readonly actor: Actor }>,
): RouteHandler {
  return answering(async (request, context) => {
    const actor = await currentActor()
    if (actor === undefined) throw await signedOut()
    if (!isRead(request) && (await isSharedSession())) {
      throw new Failure('forbidden', { rule: 'shared-tablet' })
    }
    return spec.handler({ ...(await askedOf(spec, request, context)), actor })
  })
}

/** A route for anybody. */
export function definePublicRoute<Q = undefined, B = undefined>(
  spec: RouteSpec<Q, B, unknown>,
): RouteHandler {
  return answering(async (request, context) => spec.handler(await askedOf(spec, request, context)))
}

/** A session that was ended for its person is another thing than none: what a phone kept goes with it. */
async function signedOut(): Promise<Failure> {
  const isEnded = (await currentSession()) !== undefined
  return new Failure('signed-out', isEnded ? { rule: 'session-ended' } : {})
}

function answering(work: (request: Request, context: Context) => Promise<Answer>): RouteHandler {
  return async (request, context) => {
    try {
      refuseForeignWrite(request)
      return toResponse(await work(request, context))
    } catch (thrown) {
      unstable_rethrow(thrown)
      const { status, body } = problemDetails(thrown)
      return Response.json(body, { status, headers: { 'content-type': 'application/problem+json' } })
    }
  }
}

async function askedOf<Q, B>(
  spec: Pick<RouteSpec<Q, B, never>, 'query' | 'body'>,
  request: Request,
  context: Context,
): Promise<Asked<Q, B>> {
  const search = new URL(request.url).searchParams
  return {
    query: spec.query === undefined ? (undefined as Q) : parse(spec.query, queryObject(search)),
    body: spec.body === undefined ? (undefined as B) : parse(spec.body, await bodyOf(request)),
    params: paramsOf(await context.params),
    now: await currentNow(),
    request,
  }
}

/** A query as a plain object; a name said several times becomes a list. */
export function queryObject(search: URLSearchParams): Record<string, string | string[]> {
  const names = [...new Set(search.keys())]
  return Object.fromEntries(
    names.map(name => {
      const all = search.getAll(name)
      return [name, all.length === 1 ? (all[0] ?? '') : all]
    }),
  )
}

function paramsOf(given: Record<string, string | string[] | undefined> = {}): Params {
  return Object.fromEntries(
    Object.entries(given).flatMap(([name, value]) => (typeof value === 'string' ? [[name, value]] : [])),
  )
}

async function bodyOf(request: Request): Promise<unknown> {
  try {
    return await request.json()
  } catch (cause) {
    throw new Failure('invalid', { rule: 'not-json', cause })
  }
}

const isRead = ({ method }: Request) => method === 'GET' || method === 'HEAD'

/** A cookie travels with a form of another site; only our own pages may write. */
function refuseForeignWrite(request: Request): void {
  if (isRead(request)) return
  const origin = request.headers.get('origin')
  const ours = [new URL(env().NEXTAUTH_URL).host, request.headers.get('host')]
  if (origin === null || !URL.canParse(origin) || !ours.includes(new URL(origin).host)) {
    throw new Failure('forbidden', { rule: 'foreign-write' })
  }
}

function toResponse(answer: Answer): Response {
  if (answer instanceof Response) return answer
  if ('json' in answer) return Response.json(answer.json, { status: answer.status ?? 200 })
  return new Response(answer.csv, {
    headers: {
      'content-type': 'text/csv; charset=utf-8',
      'content-disposition': `attachment; filename="${answer.filename.replaceAll(/[^\w.-]/g, '-')}"`,
    },
  })
}

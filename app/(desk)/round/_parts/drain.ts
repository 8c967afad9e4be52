/** What a phone keeps of one tap until it was heard that it is recorded. */
export type KeptTap = {
  readonly key: string
  readonly personId: number
  /** As the form would send them, with a key of its own. */
  readonly fields: Readonly<Record<string, string>>
  /** What was tapped, for people. */
  readonly words: string
  readonly madeAt: number
  /** Why it was not taken; it is not sent again. */
  readonly refused?: string
}

export type TapAnswer =
  | { readonly kind: 'taken'; readonly id: number; readonly say: string; readonly canUndo: boolean }
  | { readonly kind: 'refused'; readonly why: string }
  | { readonly kind: 'signed-out' }
  | { readonly kind: 'unreachable' }

export type TapStore = {
  /** Those that wait, the oldest first. */
  readonly waiting: () => Promise<readonly KeptTap[]>
  readonly remove: (key: string) => Promise<void>
  readonly refuse: (key: string, why: string) => Promise<void>
}

/**
 * Sends what waits, one after the other in the order it was tapped. A tap leaves the store only once its answer was
 * heard: what is sent again because the answer was lost is recorded once by its key.
 */
export async function drain(
  store: TapStore,
  post: (tap: KeptTap) => Promise<TapAnswer>,
  heard: (tap: KeptTap, answer: TapAnswer) => void = () => undefined,
): Promise<'empty' | 'unreachable' | 'signed-out'> {
  for (;;) {
    const [tap] = await store.waiting()
    if (tap === undefined) return 'empty'
    const answer = await post(tap)
    if (answer.kind === 'unreachable' || answer.kind === 'signed-out') return answer.kind
    if (answer.kind === 'taken') await store.remove(tap.key)
    else await store.refuse(tap.key, answer.why)
    heard(tap, answer)
  }
}

/** What an answer of the route means for the queue. */
export function answerOf(status: number, body: unknown): TapAnswer {
  const said = typeof body === 'object' && body !== null ? (body as Readonly<Record<string, unknown>>) : {}
  if (status === 200 && typeof said['id'] === 'number') {
    return {
      kind: 'taken',
      id: said['id'],
      say: String(said['say'] ?? ''),
      canUndo: said['state'] === 'stands',
    }
  }
  if (status === 401) return { kind: 'signed-out' }
  // Anything but a plain refusal may pass: the server is not there, or not itself.
  if (status < 400 || status >= 500 || status === 408 || status === 429) return { kind: 'unreachable' }
  const errors = Array.isArray(said['errors']) ? (said['errors'] as { say?: unknown }[]) : []
  const why = [said['title'], ...errors.map(error => error.say)].filter(one => typeof one === 'string')
  return { kind: 'refused', why: why.join('. ') }
}

/** The form of a tap as it is sent: how long ago it was, since the clock of a phone may be wrong. */
export function formOf({ fields, madeAt }: KeptTap, now: number): URLSearchParams {
  return new URLSearchParams({ ...fields, agoMs: String(Math.max(0, now - madeAt)) })
}

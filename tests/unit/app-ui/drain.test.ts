import { describe, expect, it } from 'vitest'
import { answerOf, drain, formOf, type KeptTap, type TapAnswer } from '#app/(desk)/round/_parts/drain.ts'

const tapOf = (key: string): KeptTap => ({
  key,
  personId: 1,
  fields: { tap: 'counted' },
  words: key,
  madeAt: 1000,
})

function memory(keys: readonly string[]) {
  let taps = keys.map(tapOf)
  return {
    waiting: async () => taps.filter(tap => tap.refused === undefined),
    remove: async (key: string) => {
      taps = taps.filter(tap => tap.key !== key)
    },
    refuse: async (key: string, refused: string) => {
      taps = taps.map(tap => (tap.key === key ? { ...tap, refused } : tap))
    },
    all: () => taps,
  }
}

const taken: TapAnswer = { kind: 'taken', id: 7, say: 'x', canUndo: true }

describe('the queue of a phone', () => {
  it('sends in the order of the taps and keeps what nobody answered', async () => {
    const store = memory(['a', 'b', 'c'])
    const sent: string[] = []
    const post = async (tap: KeptTap): Promise<TapAnswer> => {
      sent.push(tap.key)
      return sent.length === 2 ? { kind: 'unreachable' } : taken
    }
    expect(await drain(store, post)).toBe('unreachable')
    expect(store.all().map(({ key }) => key)).toEqual(['b', 'c'])
    expect(await drain(store, post)).toBe('empty')
    expect(sent).toEqual(['a', 'b', 'b', 'c'])
  })

  it('sets aside what is refused, says why, and goes on', async () => {
    const store = memory(['a', 'b'])
    const refuse = async (tap: KeptTap): Promise<TapAnswer> =>
      tap.key === 'a' ? { kind: 'refused', why: 'No' } : taken
    expect(await drain(store, refuse)).toBe('empty')
    expect(store.all().map(({ key, refused }) => [key, refused])).toEqual([['a', 'No']])
  })

  it('waits for whoever is signed out', async () => {
    const store = memory(['a'])
    expect(await drain(store, async () => ({ kind: 'signed-out' }))).toBe('signed-out')
    expect(store.all()).toHaveLength(1)
  })
})

it('an answer that may pass is no refusal', () => {
  expect(answerOf(200, { id: 4, say: 'Done', state: 'waits' })).toEqual({
    kind: 'taken',
    id: 4,
    say: 'Done',
    canUndo: false,
  })
  expect(answerOf(401, {})).toEqual({ kind: 'signed-out' })
  for (const status of [0, 200, 302, 408, 429, 500, 502, 503]) {
    expect(answerOf(status, 'not ours'), String(status)).toEqual({ kind: 'unreachable' })
  }
  expect(answerOf(422, { title: 'Look again', errors: [{ field: 'grams', say: 'A number' }] })).toEqual({
    kind: 'refused',
    why: 'Look again. A number',
  })
})

it('a tap is sent with how long ago it was, never with the time of its clock', () => {
  expect(Object.fromEntries(formOf(tapOf('a'), 61_000))).toEqual({ tap: 'counted', agoMs: '60000' })
  expect(formOf(tapOf('a'), 500).get('agoMs')).toBe('0')
})

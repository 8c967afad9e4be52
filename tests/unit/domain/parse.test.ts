import { describe, expect, it } from 'vitest'
import { z } from 'zod'
import { parse } from '#lib/domain/parse.ts'
import type { Failure } from '#lib/kernel/failure.ts'

const sheet = z
  .strictObject({
    name: z.string().min(1).max(5),
    code: z.string().min(3),
    count: z.int().min(2).max(6),
    urgency: z.enum(['now', 'today']),
    email: z.email(),
    tags: z.array(z.string()).min(2),
    from: z.number(),
    to: z.number(),
  })
  .refine(({ from, to }) => from <= to, { path: ['to'], params: { rule: 'closure_ends_after_it_starts' } })

const good = {
  name: 'Rush',
  code: 'abc',
  count: 3,
  urgency: 'now',
  email: 'a@example.org',
  tags: ['a', 'b'],
  from: 1,
  to: 2,
} as const

function complaintsAbout(change: Record<string, unknown>): unknown {
  try {
    return parse(sheet, { ...good, ...change })
  } catch (thrown) {
    const { code, field, problems } = thrown as Failure
    return { code, field, problems }
  }
}

const about = (field: string, reason: string, limit?: number) => ({
  code: 'invalid',
  field,
  problems: [{ field, reason, ...(limit !== undefined && { limit }) }],
})

describe('parse', () => {
  it('tells a limit that is reached from one that is passed', () => {
    const chance = z.object({ chance: z.number().gt(0).lt(1), share: z.number().min(0).max(1) })
    const reasonOf = (input: object) => {
      try {
        return parse(chance, input)
      } catch (thrown) {
        return (thrown as Failure).problems.map(one => `${one.field} ${one.reason} ${one.limit}`)
      }
    }
    expect(reasonOf({ chance: 0, share: -1 })).toEqual(['chance not-above 0', 'share too-small 0'])
    expect(reasonOf({ chance: 1, share: 2 })).toEqual(['chance not-below 1', 'share too-big 1'])
  })

  it('gives back what fits', () => {
    expect(parse(sheet, good)).toEqual(good)
  })

  it.each([
    [{ name: '' }, about('name', 'missing')],
    [{ name: undefined }, about('name', 'missing')],
    [{ name: 'Marram' }, about('name', 'too-long', 5)],
    [{ code: 'ab' }, about('code', 'too-short', 3)],
    [{ count: 1 }, about('count', 'too-small', 2)],
    [{ count: 7 }, about('count', 'too-big', 6)],
    [{ count: 'two' }, about('count', 'not-number')],
    [{ urgency: 'soon' }, about('urgency', 'not-listed')],
    [{ email: 'nobody' }, about('email', 'not-email')],
    [{ tags: ['a'] }, about('tags', 'too-short', 2)],
    [{ tags: ['a', 4] }, about('tags.1', 'not-string')],
    [{ to: 0 }, about('to', 'closure_ends_after_it_starts')],
    [{ colour: 'red' }, about('colour', 'unknown')],
  ])('names the field and the reason of %j', (change, expected) => {
    expect(complaintsAbout(change)).toEqual(expected)
  })

  it('collects one complaint a field', () => {
    expect(complaintsAbout({ name: '', count: 9 })).toEqual({
      code: 'invalid',
      field: 'name',
      problems: [
        { field: 'name', reason: 'missing' },
        { field: 'count', reason: 'too-big', limit: 6 },
      ],
    })
  })

  it('names no field where the whole is wrong', () => {
    expect(() => parse(z.string(), 4)).toThrow('invalid')
  })
})

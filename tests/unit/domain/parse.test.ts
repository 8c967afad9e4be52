import { describe, expect, it } from 'vitest'
import { z } from 'zod'
import { answerInput } from '#lib/domain/ask-answer.ts'
import { attachmentInput } from '#lib/domain/attachment.ts'
import { type Moment, parse, parseAt } from '#lib/domain/parse.ts'
import * as record from '#lib/domain/record.ts'
import { releaseDoneInput, releasePlanInput } from '#lib/domain/release.ts'
import { journeyInput, otherDriverInput } from '#lib/domain/road.ts'
import { surgeryInput } from '#lib/domain/surgery.ts'
import { transferInput } from '#lib/domain/transfer.ts'
import { vetWordInput } from '#lib/domain/vet-word.ts'
import type { Failure } from '#lib/kernel/failure.ts'

const { stageInput } = record
const TIMED = {
  answerInput,
  attachmentInput,
  arrivedInput: record.arrivedInput,
  checkInput: record.checkInput,
  closingInput: record.closingInput,
  departureInput: record.departureInput,
  holdInput: record.holdInput,
  journeyInput,
  movedInput: record.movedInput,
  noteInput: record.noteInput,
  otherDriverInput,
  outcomeInput: record.outcomeInput,
  releaseDoneInput,
  releasePlanInput,
  siteStateInput: record.siteStateInput,
  stageInput,
  stopInput: record.stopInput,
  surgeryInput,
  transferInput,
  vetWordInput,
  weightInput: record.weightInput,
}

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

describe('an input that reads times', () => {
  const ZONE = 'Europe/London'
  const at = (minute: number) => new Date(Date.UTC(2026, 5, 1, 12, minute))

  it('is read by the now of each reading, though its schema is built once', () => {
    let builds = 0
    const timed = (moment: Moment) => {
      builds++
      return stageInput(moment)
    }
    const input = (minute: number) => ({ stageNo: 1, at: at(minute) })
    const early = { zone: ZONE, now: at(0) }
    expect(parseAt(timed, early, { stageNo: 1 }).at).toEqual(at(0))
    expect(() => parseAt(timed, early, input(30))).toThrow()
    expect(parseAt(timed, { zone: ZONE, now: at(30) }, input(30)).at).toEqual(at(30))
    expect(parseAt(timed, { zone: ZONE, now: at(40) }, { stageNo: 1 }).at).toEqual(at(40))
    expect(builds).toBe(1)
    // Another clock, another schema: noon in Paris is eleven in London's summer.
    const paris = { zone: 'Europe/Paris', now: at(30) }
    expect(parseAt(timed, paris, { stageNo: 1, at: '2026-06-01T12:00' }).at).toEqual(at(-120))
    expect(parseAt(timed, early, { stageNo: 1, at: '2026-06-01T12:00' }).at).toEqual(at(-60))
    expect(builds).toBe(2)
  })

  it.each(Object.entries(TIMED))('%s does not ask what now is while it is built', (_, timed) => {
    const moment = {
      zone: ZONE,
      get now(): Date {
        throw new Error('asked while it was built')
      },
    }
    expect(() => timed(moment)).not.toThrow()
  })
})

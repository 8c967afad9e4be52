import { describe, expect, it } from 'vitest'
import { z } from 'zod'
import { filledEntries, filledRows, numberedBoxes, percentText } from '#lib/domain/form-rows.ts'
import { decimalText, integerText } from '#lib/domain/text.ts'

const row = z.object({ day: integerText.pipe(z.int().max(7)), name: z.string().min(1) })
const complaints = (read: { error?: z.ZodError | undefined }) =>
  (read.error?.issues ?? []).map(issue => issue.path.join('.'))

describe('lines of a form', () => {
  it('count only where they say something', () => {
    const typed = [
      { day: '1', name: 'a' },
      { day: '', name: ' ' },
      { day: '2', name: 'b' },
    ]
    expect(filledRows(row).parse(typed)).toEqual([
      { day: 1, name: 'a' },
      { day: 2, name: 'b' },
    ])
    expect(filledRows(row).parse(undefined)).toEqual([])
  })

  it('complain about the line as it stands in the form, empty ones counted', () => {
    const typed = [
      { day: '', name: '' },
      { day: '8', name: 'a' },
      { day: 'x', name: '' },
    ]
    expect(complaints(filledRows(row).safeParse(typed))).toEqual(['1.day', '2.day', '2.name'])
    const inside = z.object({
      lines: filledRows(row).pipe(z.array(z.object({ day: z.number(), name: z.string() })).min(1)),
    })
    expect(complaints(inside.safeParse({ lines: typed }))).toEqual([
      'lines.1.day',
      'lines.2.day',
      'lines.2.name',
    ])
    expect(complaints(inside.safeParse({ lines: [] }))).toEqual(['lines'])
  })
})

describe('named boxes', () => {
  it('are pairs of those that were filled in', () => {
    expect(filledEntries(integerText).parse({ falcons: '2', owls: '', bats: ' 0 ' })).toEqual([
      ['falcons', 2],
      ['bats', 0],
    ])
  })

  it('complain by name', () => {
    expect(complaints(filledEntries(integerText).safeParse({ falcons: 'two', owls: '' }))).toEqual([
      'falcons',
    ])
  })
})

describe('a numbered list of boxes', () => {
  it('reads an empty one as none of it and leaves off what is empty at the end', () => {
    expect(numberedBoxes(decimalText).parse(['80', '', '20', '', ' '])).toEqual([80, 0, 20])
    expect(numberedBoxes(decimalText).parse(['', ''])).toEqual([])
  })

  it('complains by number', () => {
    expect(complaints(numberedBoxes(decimalText).safeParse(['1', '', 'x']))).toEqual(['2'])
  })
})

describe('a share in per cent', () => {
  it('is typed with point or comma and written back as it was', () => {
    expect(['7.5', '7,5', '0', '100'].map(typed => z.decode(percentText, typed))).toEqual([
      0.075, 0.075, 0, 1,
    ])
    for (const typed of ['0', '0.1', '2.3', '7.5', '33.3333', '94.8', '100']) {
      expect(z.encode(percentText, z.decode(percentText, typed))).toBe(typed)
    }
  })

  it('lies between 0 and 100', () => {
    const ruleOf = (typed: string) => percentText.safeParse(typed).error?.issues[0]
    expect(ruleOf('100.1')).toMatchObject({ params: { rule: 'not-percent' } })
    expect(ruleOf('-1')).toMatchObject({ params: { rule: 'not-percent' } })
  })

  it('is missing where nothing was typed', () => {
    const [issue] = percentText.safeParse(' ').error?.issues ?? []
    expect(issue).toMatchObject({ code: 'custom', params: { rule: 'missing' } })
  })
})

import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { readCsv } from '#lib/domain/csv-read.ts'
import { csvText } from '#lib/domain/csv-text.ts'

const cellsOf = (text: string) => readCsv(text).lines.map(line => line.cells)

describe('a table', () => {
  it.each([
    ['commas', 'a,b\r\n1,"x, y"\r\n'],
    ['semicolons', 'a;b\n1;x, y\n'],
    ['tabs and a byte order mark', '\uFEFFa\tb\n1\tx, y'],
  ])('is read with %s', (_, text) => {
    expect(cellsOf(text)).toEqual([
      ['a', 'b'],
      ['1', 'x, y'],
    ])
  })

  it('says where its lines stand, empty ones counted, and where it cannot be read', () => {
    expect(readCsv('a\n\nb\n').lines.map(line => line.line)).toEqual([1, 3])
    const broken = readCsv('a,b\n1,2\nx,"open\n')
    expect(broken.lines).toHaveLength(2)
    expect(broken.brokenAt).toBeGreaterThanOrEqual(3)
  })

  it('comes back as it was written, formulas and apostrophes too', () => {
    const cell = fc.oneof(
      fc.string(),
      fc.constantFrom('=1+1', "'=1", "''-x", "'", '\t', '"', 'a;b', 'x,y', 'line\nline', '-0.5'),
    )
    fc.assert(
      fc.property(fc.array(fc.tuple(fc.constant('x'), cell, cell)), rows => {
        expect(cellsOf(csvText(['a', 'b', 'c'], rows))).toEqual([['a', 'b', 'c'], ...rows])
      }),
    )
  })
})

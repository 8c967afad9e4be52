import { parse } from 'csv-parse/sync'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { csvText } from '#lib/domain/csv-text.ts'

describe('a table as text', () => {
  it('has heads, quotes only where needed, and ends each line', () => {
    expect(
      csvText(
        ['a', 'b, c'],
        [
          ['x "y"', 1.5],
          [null, -2],
        ],
      ),
    ).toBe('a,"b, c"\r\n"x ""y""",1.5\r\n,-2\r\n')
  })

  it.each(['=1+1', '+1', '-1', '@x', '\tx'])('never holds a formula: %s', text => {
    expect(parse(csvText(['a'], [[text]]), { columns: true })).toEqual([{ a: `'${text}` }])
  })

  it('reads back as it was, by another reader', () => {
    const cell = fc.string().filter(text => !/^'*[=+\-@\t\r]/.test(text))
    fc.assert(
      fc.property(fc.array(fc.tuple(cell, cell), { minLength: 1 }), rows => {
        const back = parse(csvText(['a', 'b'], rows), { record_delimiter: '\r\n', skip_empty_lines: false })
        expect(back).toEqual([['a', 'b'], ...rows])
      }),
    )
  })
})

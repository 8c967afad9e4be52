import { describe, expect, it } from 'vitest'
import { parse } from '#lib/domain/parse.ts'
import { queryOf, whoIsWhereFilter, whoIsWhereQuery } from '#lib/domain/who-is-where.ts'
import { isFailure } from '#lib/kernel/failure.ts'

describe('what Who is where is asked', () => {
  it('is everybody in care by place when nothing is said', () => {
    expect(parse(whoIsWhereQuery, {})).toEqual({ show: 'in care', order: 'place', down: false, page: 1 })
  })

  it('reads back from its own address', () => {
    const asked = parse(whoIsWhereFilter, {
      show: 'fit',
      centre: '3',
      group: 'owls',
      stage: 'critical care',
      text: ' tawny ',
      order: 'until',
      down: 'yes',
    })
    expect(asked).toMatchObject({ centre: 3, text: 'tawny', down: true })
    expect(parse(whoIsWhereFilter, queryOf(asked))).toEqual(asked)
  })

  it('takes empty boxes of a form for nothing said', () => {
    const asked = parse(whoIsWhereFilter, { show: 'in care', centre: '', group: '', stage: '', text: '  ' })
    expect(queryOf(asked)).toEqual({})
  })

  it.each([
    ['show', 'everybody'],
    ['centre', '0'],
    ['stage', 'asleep'],
    ['order', 'colour'],
    ['page', '-1'],
  ])('names %s when it makes no sense', (field, value) => {
    const thrown = (() => {
      try {
        return parse(whoIsWhereQuery, { [field]: value })
      } catch (refused) {
        return refused
      }
    })()
    expect(isFailure(thrown) && thrown.problems[0]?.field).toBe(field)
  })
})

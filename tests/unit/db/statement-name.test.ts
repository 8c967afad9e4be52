import { expect, test } from 'vitest'
import { statementNames } from '#lib/db/statement-name.ts'

test('the same text has the same name, another text another', () => {
  const name = statementNames()
  const first = name({ sql: 'select 1' })
  expect(first).not.toBe('')
  expect(name({ sql: 'select 2' })).not.toBe(first)
  expect(name({ sql: 'select 1' })).toBe(first)
})

test('past the limit a new text has no name, and those that have one keep it', () => {
  const name = statementNames(2)
  const had = [name({ sql: 'select 1' }), name({ sql: 'select 2' })]
  expect(name({ sql: 'select 3' })).toBe('')
  expect([name({ sql: 'select 1' }), name({ sql: 'select 2' })]).toEqual(had)
})

/**
 * Every file of lib opens with what it promises; and everything our mathematics gives out says what it is.
 */
import { describe, expect, it } from 'vitest'
import { isNode, nameOf, parsed, type Source, sourcesIn, statementsOf } from './source.ts'

const HEAD_LINES_MAX = 8
const DOCUMENTED = ['lib/numerics/', 'lib/forecast/', 'lib/learn/', 'lib/judge/', 'lib/plan/', 'lib/season/']

function headComplaint(source: Source): string[] {
  const [first] = parsed(source).comments
  const say = (what: string) => [`${source.path} ${what}`]
  if (first === undefined || first.start !== 0 || !first.value.startsWith('*'))
    return say('opens without a head comment')
  const [statement] = statementsOf(source)
  if (statement !== undefined && !/\n/.test(source.text.slice(first.end, Number(statement['start'])))) {
    return say('has its head comment on the line of its first statement')
  }
  const words = first.value
    .split('\n')
    .map(line => line.replace(/^\s*\*+/, '').trim())
    .filter(line => line !== '')
  if (words.join(' ').length < 20) return say('has a head comment that says nothing')
  if (words.length > HEAD_LINES_MAX) return say(`has a head comment of ${words.length} lines`)
  return []
}

/** Exported functions without a docstring of their own. */
function undocumented(source: Source): string[] {
  const { comments } = parsed(source)
  return statementsOf(source).flatMap(statement => {
    const declaration = statement.type === 'ExportNamedDeclaration' ? statement['declaration'] : undefined
    if (!isNode(declaration) || declaration.type !== 'FunctionDeclaration') return []
    const start = Number(statement['start'])
    const doc = comments.findLast(one => one.end <= start && source.text.slice(one.end, start).trim() === '')
    return doc?.value.startsWith('*') === true
      ? []
      : [`${source.path} ${nameOf(declaration['id'])} has no docstring`]
  })
}

describe('documents', () => {
  const files = sourcesIn('lib/')

  it('open every file of lib', () => {
    expect(files.length).toBeGreaterThan(20)
    expect(files.flatMap(headComplaint)).toEqual([])
  })

  it('stand on every function the mathematics gives out', () => {
    expect(sourcesIn(...DOCUMENTED).flatMap(undocumented)).toEqual([])
  })
})

describe('a planted silence', () => {
  it.each([
    ['export const x = 1', 'opens without'],
    ["import { y } from './y.ts'\n/** Late, and so no head at all. */", 'opens without'],
    ['// Not the kind that documents.\nexport const x = 1', 'opens without'],
    ['/** Stands on the very line of its statement. */ export const x = 1', 'on the line'],
    ['/** Sums. */\nexport const x = 1', 'says nothing'],
    [`/**\n${' * A line of words.\n'.repeat(9)} */\nexport const x = 1`, 'of 9 lines'],
  ])('is found: %s', (text, complaint) => {
    expect(headComplaint({ path: 'lib/x.ts', text }).join()).toContain(complaint)
  })

  it('is found on a function', () => {
    const text =
      '/** Sums of values. */\nimport x from "x"\nexport function sum() {}\n/** Says. */\nexport function said() {}'
    expect(undocumented({ path: 'lib/numerics/x.ts', text })).toEqual([
      'lib/numerics/x.ts sum has no docstring',
    ])
  })
})

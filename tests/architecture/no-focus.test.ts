/**
 * No test is left out, and none runs alone: what is not run is not a check. Nor does a browser test wait by a promise:
 * Playwright's waitForFunction takes the promise itself for a yes, and waits for nothing.
 */
import { describe, expect, it } from 'vitest'
import {
  isNode,
  lineOf,
  nameOf,
  type Source,
  type SyntaxNode,
  sourcesIn,
  statementsOf,
  walk,
} from './source.ts'

const RUNNERS = ['it', 'test', 'describe', 'suite', 'bench']
const LEFT_OUT = ['only', 'skip', 'todo', 'fixme', 'fails', 'fail', 'skipIf', 'runIf', 'slow']
const OLD_NAMES = ['xit', 'xdescribe', 'xtest', 'fit', 'fdescribe']

function leftOut(source: Source): string[] {
  const found: string[] = []
  walk(statementsOf(source), node => {
    const what = leftOutBy(node)
    if (what !== undefined) found.push(`${source.path}:${lineOf(source, node)} ${what}`)
    return undefined
  })
  return found
}

function leftOutBy(node: SyntaxNode): string | undefined {
  if (node.type === 'CallExpression' && OLD_NAMES.includes(nameOf(node['callee']) ?? '')) {
    return nameOf(node['callee'])
  }
  if (node.type !== 'MemberExpression') return undefined
  const property = nameOf(node['property']) ?? literalOf(node['property']) ?? ''
  const runner = runnerOf(node['object'])
  return runner !== undefined && LEFT_OUT.includes(property) ? `${runner}.${property}` : undefined
}

/** `describe.concurrent.only` leaves others out as `describe.only` does. */
function runnerOf(node: unknown): string | undefined {
  if (isNode(node) && node.type === 'MemberExpression') return runnerOf(node['object'])
  const name = nameOf(node)
  return name !== undefined && RUNNERS.includes(name) ? name : undefined
}

function promisedWaits(source: Source): string[] {
  const found: string[] = []
  walk(statementsOf(source), node => {
    if (node.type !== 'CallExpression' || !isNode(node['callee'])) return undefined
    const [waits] = Array.isArray(node['arguments']) ? node['arguments'] : []
    const isPromised = isNode(waits) && waits['async'] === true
    if (isPromised && nameOf(node['callee']['property']) === 'waitForFunction') {
      found.push(`${source.path}:${lineOf(source, node)} waitForFunction`)
    }
    return undefined
  })
  return found
}

function literalOf(node: unknown): string | undefined {
  return isNode(node) && typeof node['value'] === 'string' ? node['value'] : undefined
}

describe('the tests', () => {
  it('leave nothing out', () => {
    const files = sourcesIn('tests/')
    expect(files.length).toBeGreaterThan(20)
    expect(files.flatMap(leftOut)).toEqual([])
  })

  it('wait for what they say', () => {
    expect(sourcesIn('tests/').flatMap(promisedWaits)).toEqual([])
    const planted = 'await page.waitForFunction(async () => false)'
    expect(promisedWaits({ path: 'tests/x.spec.ts', text: planted })).toEqual([
      'tests/x.spec.ts:1 waitForFunction',
    ])
  })
})

describe('a planted gap', () => {
  it.each([
    "it.only('x', () => {})",
    "describe.skip('x', () => {})",
    "test.describe.only('x', () => {})",
    "it.todo('x')",
    "test.fixme('x', () => {})",
    "it.skipIf(true)('x', () => {})",
    "it['skip']('x', () => {})",
    "test.skip(process.platform === 'win32')",
    "xit('x', () => {})",
  ])('is found: %s', text => {
    expect(leftOut({ path: 'tests/x.test.ts', text })).toHaveLength(1)
  })

  it.each(["it('only once', () => {})", "it.each([1])('x', () => {})", 'list.only()'])(
    'is not seen in %s',
    text => {
      expect(leftOut({ path: 'tests/x.test.ts', text })).toEqual([])
    },
  )
})

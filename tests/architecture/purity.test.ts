/**
 * The pure rooms know no clock, no chance, no surroundings but what they are given.
 */
import { describe, expect, it } from 'vitest'
import { lineOf, nameOf, type Source, type SyntaxNode, sourcesIn, statementsOf, walk } from './source.ts'

const PURE = [
  'kernel',
  'numerics',
  'domain',
  'forecast',
  'learn',
  'judge',
  'plan',
  'season',
  'words',
  'authz',
].map(room => `lib/${room}/`)
const SURROUNDINGS = [
  'process',
  'fetch',
  'console',
  'globalThis',
  'window',
  'document',
  'performance',
  'crypto',
  'setTimeout',
  'setInterval',
  'require',
  'localStorage',
]

/** Also plain nouns: where a file names something of its own so, it means that. */
const NOUNS = ['window', 'document']

function impurities(source: Source): string[] {
  const found: string[] = []
  const own = ownNouns(source)
  walk(statementsOf(source), (node, parent, key) => {
    const what = impurityOf(node, parent, key)
    if (what !== undefined && !own.has(what)) found.push(`${source.path}:${lineOf(source, node)} ${what}`)
    return undefined
  })
  return found
}

function ownNouns(source: Source): Set<string> {
  const own = new Set<string>()
  walk(statementsOf(source), node => {
    const named = Array.isArray(node['params'])
      ? node['params']
      : [node.type === 'VariableDeclarator' && node['id']]
    for (const name of named.map(nameOf)) if (name !== undefined && NOUNS.includes(name)) own.add(name)
    return undefined
  })
  return own
}

function impurityOf(node: SyntaxNode, parent: SyntaxNode | undefined, key: string): string | undefined {
  if (node.type === 'MemberExpression') {
    const name = `${nameOf(node['object'])}.${nameOf(node['property'])}`
    return name === 'Date.now' || name === 'Math.random' ? name : undefined
  }
  const isDate = nameOf(node['callee']) === 'Date'
  if (node.type === 'NewExpression' && isDate && (node['arguments'] as unknown[]).length === 0)
    return 'new Date()'
  if (node.type === 'CallExpression' && isDate) return 'Date()'
  const name = nameOf(node)
  if (name === undefined || !SURROUNDINGS.includes(name)) return undefined
  const isOnlyAName =
    (parent?.type === 'MemberExpression' && key === 'property' && parent['computed'] !== true) ||
    (parent?.type === 'Property' && key === 'key') ||
    parent?.type.startsWith('TS') === true
  return isOnlyAName ? undefined : name
}

describe('the pure rooms', () => {
  it('read no clock, draw no chance, touch nothing outside', () => {
    const files = sourcesIn(...PURE)
    expect(files.length).toBeGreaterThan(10)
    expect(files.flatMap(impurities)).toEqual([])
  })
})

describe('a planted impurity', () => {
  it.each([
    'const now = Date.now()',
    'const now = new Date()',
    'const now = Date()',
    'const x = Math.random()',
    'const f = Math.random',
    "const home = process.env['HOME']",
    "await fetch('/x')",
    "console.log('x')",
    'const later = () => setTimeout(work, 5)',
    'const x = { process }',
    "const x = globalThis['Date'].now()",
    'const width = window.innerWidth',
    'function f(process: string) { return process }',
  ])('is found: %s', text => {
    expect(impurities({ path: 'lib/domain/x.ts', text })).not.toEqual([])
  })

  it.each([
    'const at = new Date(5)',
    'const x = { process: 1 }',
    'type Fetch = { fetch: string }',
    'call.document.id',
  ])('is not seen in %s', text => {
    expect(impurities({ path: 'lib/domain/x.ts', text })).toEqual([])
  })
})

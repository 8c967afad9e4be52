/**
 * Reading our own source: files of the tree, and their syntax.
 */
import { readdirSync, readFileSync } from 'node:fs'
import { join, relative, sep } from 'node:path'
import { fileURLToPath } from 'node:url'
import { type ParseResult, parseSync } from 'oxc-parser'

const root = fileURLToPath(new URL('../..', import.meta.url))

/** A file as the checks see it: its path from the root with slashes, and its text. */
export type Source = { readonly path: string; readonly text: string }

/** What the syntax tree is made of, as far as the checks look. */
export type SyntaxNode = { readonly type: string; readonly [key: string]: unknown }

const CODE = /\.(ts|tsx|mjs|js)$/
const GENERATED = [
  'node_modules',
  'prisma/generated',
  '.next',
  '.data',
  '.git',
  'tests/output',
  'next-env.d.ts',
]

let kept: readonly Source[] | undefined

/** Every file of ours with code in it, by path. */
export function allSources(): readonly Source[] {
  kept ??= pathsUnder(root)
    .filter(path => CODE.test(path))
    .sort()
    .map(path => ({ path, text: readFileSync(join(root, path), 'utf8') }))
  return kept
}

/** Those whose path begins with one of the folders. */
export function sourcesIn(...folders: readonly string[]): readonly Source[] {
  return allSources().filter(({ path }) => folders.some(folder => path.startsWith(folder)))
}

function pathsUnder(folder: string): string[] {
  return readdirSync(folder, { withFileTypes: true }).flatMap(entry => {
    const full = join(folder, entry.name)
    const path = relative(root, full).split(sep).join('/')
    if (GENERATED.includes(path)) return []
    return entry.isDirectory() ? pathsUnder(full) : [path]
  })
}

const parses = new WeakMap<Source, ParseResult>()

/** The syntax of a file; throws on what does not parse. */
export function parsed(source: Source): ParseResult {
  const before = parses.get(source)
  if (before !== undefined) return before
  const result = parseSync(source.path, source.text)
  const [error] = result.errors
  if (error !== undefined) throw new Error(`${source.path} does not parse: ${error.message}`)
  parses.set(source, result)
  return result
}

/** The statements of a file. */
export function statementsOf(source: Source): readonly SyntaxNode[] {
  return parsed(source).program.body as unknown as readonly SyntaxNode[]
}

/** Visits a node and everything in it; the visitor sees the parent, and may say `false` to stay out. */
export function walk(
  node: unknown,
  visit: (node: SyntaxNode, parent: SyntaxNode | undefined, key: string) => boolean | undefined,
): void {
  descend(node, undefined, '', visit)
}

function descend(
  node: unknown,
  parent: SyntaxNode | undefined,
  key: string,
  visit: (node: SyntaxNode, parent: SyntaxNode | undefined, key: string) => boolean | undefined,
): void {
  if (Array.isArray(node)) {
    for (const one of node) descend(one, parent, key, visit)
    return
  }
  if (!isNode(node)) return
  if (visit(node, parent, key) === false) return
  for (const [name, value] of Object.entries(node)) {
    if (typeof value === 'object' && value !== null) descend(value, node, name, visit)
  }
}

export function isNode(value: unknown): value is SyntaxNode {
  return typeof value === 'object' && value !== null && typeof (value as SyntaxNode).type === 'string'
}

/** The name of an identifier, else undefined. */
export function nameOf(node: unknown): string | undefined {
  return isNode(node) && node.type === 'Identifier' && typeof node['name'] === 'string'
    ? node['name']
    : undefined
}

/** The line, from 1, at which a node stands. */
export function lineOf(source: Source, node: SyntaxNode): number {
  return source.text.slice(0, Number(node['start'])).split('\n').length
}

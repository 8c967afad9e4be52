/**
 * Every file with code in the rooms that hold the field's rules and numbers has a test of the same name.
 */
import { describe, expect, it } from 'vitest'
import { allSources, type Source, statementsOf } from './source.ts'

const ROOMS = ['numerics', 'domain', 'forecast', 'learn', 'judge', 'plan', 'authz', 'kernel']

/** Files of a room with no test beside their name; files of types alone need none. */
function untested(sources: readonly Source[]): string[] {
  const paths = new Set(sources.map(({ path }) => path))
  const rooms = ROOMS.map(room => `lib/${room}/`)
  return sources
    .filter(({ path }) => rooms.some(room => path.startsWith(room)) && path.endsWith('.ts'))
    .filter(source => hasCode(source))
    .map(({ path }) => path)
    .filter(path => !paths.has(path.replace(/^lib\//, 'tests/unit/').replace(/\.ts$/, '.test.ts')))
}

function hasCode(source: Source): boolean {
  return statementsOf(source).some(statement => {
    if (statement.type !== 'ExportNamedDeclaration')
      return statement.type !== 'ImportDeclaration' && !isType(statement)
    const declaration = statement['declaration']
    return typeof declaration === 'object' && declaration !== null && !isType(declaration as { type: string })
  })
}

function isType({ type }: { readonly type: string }): boolean {
  return type === 'TSTypeAliasDeclaration' || type === 'TSInterfaceDeclaration'
}

describe('twins', () => {
  it('exist for every file of rules and numbers', () => {
    expect(untested(allSources())).toEqual([])
  })

  it('are missed when they are not there, and not asked of types', () => {
    const planted = [
      { path: 'lib/numerics/sum.ts', text: 'export const sum = 1' },
      { path: 'lib/plan/cost.ts', text: 'export function cost() {}' },
      { path: 'tests/unit/plan/cost.test.ts', text: '' },
      { path: 'lib/domain/keeper.ts', text: "import type { A } from './a.ts'\nexport type Keeper = A" },
      { path: 'lib/web/form.ts', text: 'export const form = 1' },
    ]
    expect(untested(planted)).toEqual(['lib/numerics/sum.ts'])
  })
})

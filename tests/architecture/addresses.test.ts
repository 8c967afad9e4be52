/**
 * Every address that `paths` builds leads to a page or a route: what the cast in lib/web/paths.ts keeps from the compiler.
 */
import { describe, expect, it } from 'vitest'
import { paths } from '#lib/web/paths.ts'
import { allSources } from './source.ts'

const SETUP_NOUNS = [
  'centres',
  'rooms',
  'enclosures',
  'closures',
  'practices',
  'drivers',
  'arrivals',
  'plans',
  'policy',
  'people',
] as const

/** The address a file of app answers, with `*` for each part in brackets. */
function addressOf(path: string): string {
  const parts = path.split('/').slice(1, -1)
  const seen = parts.filter(part => !part.startsWith('('))
  return `/${seen.map(part => (part.startsWith('[') ? '*' : part)).join('/')}`
}

function leads(address: string, answered: readonly string[]): boolean {
  const parts = address.split('?')[0]!.split('/')
  return answered.some(one => {
    const theirs = one.split('/')
    return theirs.length === parts.length && theirs.every((part, at) => part === '*' || part === parts[at])
  })
}

const answered = allSources()
  .map(({ path }) => path)
  .filter(path => /^app\/(.+\/)?(page\.tsx|route\.tsx?)$/.test(path))
  .map(addressOf)

const { setupList, setupNew, setupItem, ...plain } = paths
const asked = [
  ...Object.values(plain as unknown as Record<string, (...parts: string[]) => string>).map(build =>
    // Of a picture: the whole one.
    build('7', '7', '7'),
  ),
  paths.round(),
  ...SETUP_NOUNS.map(noun => setupList(noun)),
]

describe('addresses', () => {
  it('all lead somewhere', () => {
    expect(answered.length).toBeGreaterThan(2)
    expect(asked.length).toBeGreaterThan(2)
    expect(asked.filter(address => !leads(address, answered))).toEqual([])
  })

  it('are missed where nothing answers', () => {
    const some = ['/', '/calls/*', '/calls'].map(String)
    expect(['/', '/calls/7?a=1', '/calls', '/round', '/calls/7/b'].filter(one => !leads(one, some))).toEqual([
      '/round',
      '/calls/7/b',
    ])
  })
})

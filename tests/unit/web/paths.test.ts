import { describe, expect, it } from 'vitest'
import { paths, safeReturn } from '#lib/web/paths.ts'

describe('paths', () => {
  it('encode what stands in them and leave out what is blank', () => {
    expect(paths.casualty('Rush 12/a')).toBe('/casualties/Rush%2012%2Fa')
    expect(
      paths.casualties({ sort: 'until', stage: ['critical care', 'quarantine'], q: '', page: undefined }),
    ).toBe('/casualties?sort=until&stage=critical+care&stage=quarantine')
    expect([paths.round(), paths.round(3), paths.signIn(), paths.signIn('/calls')]).toEqual([
      '/round',
      '/round/3',
      '/sign-in',
      '/sign-in?to=%2Fcalls',
    ])
  })
})

describe('safeReturn', () => {
  it('goes back to one of our own addresses', () => {
    expect(safeReturn('/calls/4?fact=2')).toBe('/calls/4?fact=2')
  })

  it.each(['//evil.example', '/\\evil.example', 'https://evil.example', '/a b', '', undefined, ['/calls']])(
    'goes to the front page instead of %j',
    to => {
      expect(safeReturn(to)).toBe('/')
    },
  )
})

import { describe, expect, it } from 'vitest'
import { dayOfDate } from '#lib/domain/day.ts'
import { parse } from '#lib/domain/parse.ts'
import { type BarredBy, barsAgainst, isSensitive, releasePlanInput, siteSeen } from '#lib/domain/release.ts'

const NOTHING: BarredBy = { checks: [], stageNo: 1, implants: [], laws: [], seasons: [] }
const JUNE = dayOfDate('2026-06-10')
const rules = (known: Partial<BarredBy>, day = JUNE) =>
  barsAgainst({ ...NOTHING, ...known }, day).map(({ rule }) => rule)
const gate = (slug: string, passed: boolean | null) => ({
  slug,
  what: 'x',
  stageNo: 1,
  requiredFor: 'release' as const,
  doneAt: passed === null ? null : new Date(0),
  passed,
  isCalledOff: false,
})

describe('what stands against a release', () => {
  it('is nothing where every gate is passed', () => {
    expect(rules({ checks: [gate('flight-test', true)] })).toEqual([])
  })

  it('is a gate that is open or was not passed; a missing word of the vet by its own name', () => {
    expect(rules({ checks: [gate('flight-test', null), gate('ring', false)] })).toEqual(['gate', 'gate'])
    expect(rules({ checks: [gate('vet-word', null)] })).toEqual(['vet'])
  })

  it('is an implant in place, not one that is out or that a vet signed', () => {
    const implants = (state: 'in place' | 'out' | 'signed to stay') => [{ kind: 'pin' as const, state }]
    expect(rules({ implants: implants('in place') })).toEqual(['implant'])
    expect(rules({ implants: implants('out') })).toEqual([])
    expect(rules({ implants: implants('signed to stay') })).toEqual([])
  })

  // Trade S100: grey squirrel and muntjac may not be released in Britain since 2019.
  it('is the law for a species that may not be released, and the season for a migrant', () => {
    expect(rules({ laws: [{ key: 'gb-ias-no-release', meaning: 'x' }] })).toEqual(['law'])
    expect(rules({ laws: [{ key: 'gb-wild-bird-tend', meaning: 'x' }] })).toEqual([])
    const swallow = {
      kind: 'migration',
      opens: '04-01',
      closes: '09-15',
      grams: null,
      mark: 'CP',
      note: '',
    } as const
    expect(rules({ seasons: [swallow] })).toEqual([])
    expect(rules({ seasons: [swallow] }, dayOfDate('2026-10-01'))).toEqual(['season'])
  })
})

describe('the place of a release', () => {
  const site = { words: 'Oak by the weir', at: { latitude: 54.2178, longitude: -3.0462 } }

  it('is exact for whoever needs it, and without words to a tenth of a degree for others', () => {
    expect(siteSeen(site, true)).toEqual({ ...site, isCoarse: false })
    expect(siteSeen(site, false)).toEqual({
      words: '',
      at: { latitude: 54.2, longitude: -3 },
      isCoarse: true,
    })
  })

  it('is sensitive by the licence rules of the species', () => {
    expect(isSensitive(['gb-wild-bird-tend', 'en-schedule-4-keeping'])).toBe(true)
    expect(isSensitive(['gb-wild-bird-tend'])).toBe(false)
  })
})

it('a plan reads one animal or several, both numbers of a place or none', () => {
  const moment = { zone: 'Europe/London', now: new Date('2026-06-10T12:00:00Z') }
  const plan = (change: object) =>
    parse(releasePlanInput(moment), { site: 'Wood', way: 'hard', releaser: 'A', at: '', ...change })
  expect(plan({ animals: '7' }).animals).toEqual([7])
  expect(plan({ animals: ['7', '8'], latitude: '54,2', longitude: '-3' })).toMatchObject({
    animals: [7, 8],
    latitude: 54.2,
    longitude: -3,
  })
  expect(() => plan({ animals: [] })).toThrow()
  expect(() => plan({ animals: '7', latitude: '54.2', longitude: '' })).toThrow()
})

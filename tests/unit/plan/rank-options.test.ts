import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { PlacementOption, RankedOptions, RuledOut } from '#lib/domain/option.ts'
import { forecast } from '#lib/forecast/forecast.ts'
import type { CentreNow, PlacementQuestion } from '#lib/plan/model.ts'
import { outlookOf } from '#lib/plan/outlook.ts'
import { rankOptions } from '#lib/plan/rank-options.ts'
import {
  centre,
  forecastInput,
  openForecast,
  POOLS,
  question,
  resident,
  stage,
  TODAY,
  TWO_STAGES,
  withCentre,
} from '#tests/support/placement.ts'
import { placementCases, placementOf } from '#tests/support/placement-arbitrary.ts'

const open = outlookOf(openForecast())
const kinds = ({ options }: RankedOptions) => options.map(option => option.kind)
const of = ({ options }: RankedOptions, kind: string, id?: string): PlacementOption | undefined =>
  options.find(option => option.kind === kind && (id === undefined || option.to?.id === id))
const ruleFor = ({ ruledOut }: RankedOptions, id: string): RuledOut | undefined =>
  ruledOut.find(({ who }) => 'id' in who && who.id === id)

const PRACTICE = {
  id: 'p1',
  name: 'Marl Cross vets',
  phone: '07000 000 300',
  seesGroup: true,
  hasCoverNow: true,
  road: { km: 3, minutes: 4 },
  toCentres: { ash: { km: 8, minutes: 10 }, birch: { km: 22, minutes: 26 }, cedar: { km: 52, minutes: 60 } },
}
const OUTSIDE = {
  id: 'o1',
  name: 'Pinfold Rescue',
  phone: '07000 000 400',
  takesGroup: true,
  road: { km: 10, minutes: 12 },
}
const KEEP = {
  vetName: 'Dr Sorrel',
  agreedAt: { day: TODAY, clock: '23:30' },
  callBackAt: { day: TODAY + 1, clock: '08:00' },
  keptBy: 'finder',
} as const

describe('rankOptions', () => {
  it('puts the nearest of equal centres first and says what it would hold', () => {
    const [first] = rankOptions(question(), open).options
    expect(first).toMatchObject({
      kind: 'admit',
      to: { id: 'ash', kind: 'centre' },
      isNearest: true,
      travel: { km: 6 },
      door: { kind: 'open' },
      askFirst: null,
      shortTonight: 0,
      placesTonight: [{ enclosureId: 'ash-cage-1', placeNo: 1 }],
    })
    expect(first!.path.map(stop => stop.centre.id)).toEqual(['ash', 'ash'])
    expect(first!.path[0]!.chanceOfPlace).toBe(1)
  })

  it('sends it further where the nearest would be full when it can fly, and says so', () => {
    const full = outlookOf(openForecast([resident('long', 'flight-aviary', 'ash/flight-aviary')]))
    const answer = rankOptions(question(), full)
    expect(answer.options[0]!.to?.id).toBe('birch')
    const { comparison } = answer.options[0]!
    expect(comparison?.with.to?.id).toBe('ash')
    expect(comparison!.difference).toBeLessThan(0)
    expect(comparison!.byKind[0]!.kind).toBe('later stage')
    expect(of(answer, 'admit', 'ash')!.path[1]!.chanceOfPlace).toBeLessThan(0.2)
  })

  it('offers to move on only where that costs less than staying', () => {
    const full = outlookOf(openForecast([resident('long', 'flight-aviary', 'ash/flight-aviary')]))
    const answer = rankOptions(question(), full)
    const moving = of(answer, 'admit and move', 'ash')!
    expect(moving.path.map(stop => stop.centre.id)).toEqual(['ash', 'birch'])
    expect(moving.total).toBeLessThan(of(answer, 'admit', 'ash')!.total)
    expect(moving.moves).toMatchObject([
      {
        from: { id: 'ash' },
        to: { id: 'birch' },
        km: 30,
        probability: expect.closeTo(moving.path[1]!.reachProbability, 12),
      },
    ])
    expect(of(answer, 'admit and move', 'cedar')).toBeUndefined()
  })

  it('gives the same answer for the same question, whatever order the centres come in', () => {
    const asked = question({ practices: [PRACTICE], outside: [OUTSIDE], keep: KEEP })
    const answer = rankOptions(asked, open)
    expect(rankOptions({ ...asked, centres: asked.centres.toReversed() }, open)).toEqual(answer)
    expect(rankOptions(asked, outlookOf(openForecast()))).toEqual(answer)
  })

  it('breaks a tie by name', () => {
    const even = question({ centres: [centre('cedar', 10), centre('birch', 10), centre('ash', 10)] })
    const admitted = rankOptions(even, open).options.filter(option => option.kind === 'admit')
    expect(admitted.map(option => option.to!.name)).toEqual(['Ashdown Quay', 'Birchover', 'Cedar Sands'])
    expect(admitted.every(option => option.isNearest)).toBe(true)
  })

  it('leaves advice where a network has no centre yet', () => {
    expect(kinds(rankOptions(question({ centres: [] }), open))).toEqual(['advice'])
  })

  it('changes nothing it was given', () => {
    const asked = question()
    const before = structuredClone(asked)
    rankOptions(asked, open)
    expect(asked).toEqual(before)
  })

  it('refuses a forecast of another day or without a tomorrow, and animals without a plan', () => {
    expect(() => rankOptions(question({ today: TODAY + 1 }), open)).toThrow('the forecast needs to begin')
    const tonight = outlookOf(forecast(forecastInput(POOLS, [], 1)))
    expect(() => rankOptions(question(), tonight)).toThrow('horizonDays needs')
    const asked = question()
    const unplanned = { ...asked, animals: { ...asked.animals, stages: [] } }
    expect(() => rankOptions(unplanned, open)).toThrow('a stay needs a stage')
  })
})

describe('each rule cuts by its own name, and without it the option is there', () => {
  const asked = question()
  const cuts: readonly [string, Partial<CentreNow>, Partial<PlacementQuestion>?][] = [
    ['inactive', { isActive: false }],
    ['takes no such group', { takesGroup: false }],
    [
      'movement stop',
      { site: { kind: 'no movement', since: TODAY - 6, covers: 'birds', coversThese: true } },
    ],
    [
      'closed to high risk',
      { site: { kind: 'closed to high risk' } },
      { animals: { ...asked.animals, isHighRisk: true } },
    ],
    ['no housing', { homes: [null, question().centres[0]!.homes[1]!], freeTonight: [] }],
    ['shut', { door: { kind: 'shut', opensAt: { day: TODAY + 1, clock: '08:00' } } }],
  ]

  it.each(cuts)('%s', (rule, changes, also = {}) => {
    const cut = rankOptions(withCentre({ ...asked, ...also }, 'ash', changes), open)
    expect(ruleFor(cut, 'ash')).toMatchObject({ rule, who: { kind: 'centre', name: 'Ashdown Quay' } })
    expect(of(cut, 'admit', 'ash')).toBeUndefined()
    const without = rankOptions({ ...asked, ...also }, open)
    expect(ruleFor(without, 'ash')).toBeUndefined()
    expect(of(without, 'admit', 'ash')).toBeDefined()
  })

  it('isolation full, for what needs isolation and for nothing else', () => {
    const stages = [stage('quarantine', 'isolation'), TWO_STAGES[1]!]
    const pools = POOLS.map(each =>
      each.housing === 'hospital-cage' ? { ...each, housing: 'isolation' as const } : each,
    )
    const outlook = outlookOf(forecast(forecastInput(pools)))
    const needing = question({
      animals: { ...asked.animals, stages },
      centres: ['ash', 'birch'].map(id => centre(id, 6, stages, pools)),
    })
    const site = { kind: 'isolation full' } as const
    expect(ruleFor(rankOptions(withCentre(needing, 'ash', { site }), outlook), 'ash')).toMatchObject({
      rule: 'isolation full',
    })
    expect(of(rankOptions(needing, outlook), 'admit', 'ash')).toBeDefined()
    expect(of(rankOptions(withCentre(asked, 'ash', { site }), open), 'admit', 'ash')).toBeDefined()
  })

  it('a movement stop for others lets these in', () => {
    const site = { kind: 'no movement', since: TODAY - 6, covers: 'seals', coversThese: false } as const
    expect(of(rankOptions(withCentre(asked, 'ash', { site }), open), 'admit', 'ash')).toBeDefined()
  })

  it('no move into a centre that is stopped', () => {
    const full = outlookOf(openForecast([resident('long', 'flight-aviary', 'ash/flight-aviary')]))
    const site = { kind: 'no movement', since: TODAY - 6, covers: 'birds', coversThese: true } as const
    const stopped = rankOptions(withCentre(asked, 'birch', { site }), full)
    expect(stopped.options.flatMap(option => option.path).some(stop => stop.centre.id === 'birch')).toBe(
      false,
    )
    expect(of(rankOptions(asked, full), 'admit and move', 'ash')!.path[1]!.centre.id).toBe('birch')
  })

  it('no move while an animal is in isolation', () => {
    const isolated = [stage('critical care', 'isolation', 2), stage('quarantine', 'isolation', 20)]
    const isolation = POOLS.filter(each => each.housing === 'hospital-cage').map(each => ({
      ...each,
      housing: 'isolation' as const,
    }))
    const outlook = outlookOf(
      forecast(
        forecastInput(
          isolation,
          ['a', 'b'].map(id => resident(id, 'isolation', 'ash/hospital-cage')),
        ),
      ),
    )
    const centres = ['ash', 'birch'].map((id, at) => centre(id, 6 + 20 * at, isolated, isolation))
    const kept = rankOptions(question({ animals: { ...asked.animals, stages: isolated }, centres }), outlook)
    expect(kept.ruledOut).toContainEqual({
      who: { kind: 'move', stage: 'critical care' },
      rule: 'in isolation',
      next: 'quarantine',
    })
    expect(of(kept, 'admit and move', 'ash')).toBeUndefined()
    const caged = isolated.map(each => ({
      ...each,
      needs: [{ ...each.needs[0], housing: 'hospital-cage' }] as const,
    }))
    const free = rankOptions(question({ animals: { ...asked.animals, stages: caged }, centres }), outlook)
    expect(free.ruledOut.map(({ rule }) => rule)).toEqual(['no vet agreed'])
    expect(of(free, 'admit and move', 'ash')).toBeDefined()
  })

  it('a practice without cover, or that does not see such animals', () => {
    const changed = (changes: object) =>
      rankOptions(question({ practices: [{ ...PRACTICE, ...changes }] }), open)
    expect(ruleFor(changed({ hasCoverNow: false }), 'p1')).toMatchObject({ rule: 'no cover now' })
    expect(ruleFor(changed({ seesGroup: false }), 'p1')).toMatchObject({ rule: 'takes no such group' })
    expect(of(changed({}), 'vet')).toBeDefined()
  })

  it('an outside place that takes no such animals', () => {
    const cut = rankOptions(question({ outside: [{ ...OUTSIDE, takesGroup: false }] }), open)
    expect(ruleFor(cut, 'o1')).toMatchObject({ rule: 'takes no such group' })
    expect(of(rankOptions(question({ outside: [OUTSIDE] }), open), 'redirect')).toBeDefined()
  })
})

describe('a closed door', () => {
  it('is never "admit now", by whatever name', () => {
    const shut = { kind: 'shut', opensAt: null } as const
    fc.assert(
      fc.property(fc.subarray(['ash', 'birch', 'cedar']), fc.boolean(), (ids, isKept) => {
        const asked = ids.reduce<PlacementQuestion>(
          (sofar, id) => withCentre(sofar, id, { door: shut }),
          question({ keep: isKept ? KEEP : null, practices: [PRACTICE] }),
        )
        const answer = rankOptions(asked, open)
        for (const option of answer.options) {
          if (option.kind === 'admit' || option.kind === 'admit and move') {
            expect(ids).not.toContain(option.to!.id)
            expect(option.door).not.toBeNull()
          }
        }
        for (const id of ids) expect(ruleFor(answer, id)?.rule).toBe('shut')
      }),
    )
  })

  it('says who opens where somebody is on call', () => {
    const door = { kind: 'on-call', name: 'Wren A.', phone: '07000 000 101' } as const
    expect(of(rankOptions(withCentre(question(), 'ash', { door }), open), 'admit', 'ash')!.door).toEqual(door)
  })

  it('does not keep a centre from later stages or from tomorrow', () => {
    const all = ['ash', 'birch', 'cedar'].reduce<PlacementQuestion>(
      (sofar, id) =>
        withCentre(sofar, id, { door: { kind: 'shut', opensAt: { day: TODAY + 1, clock: '08:00' } } }),
      question({ keep: KEEP }),
    )
    const [first] = rankOptions(all, open).options
    expect(first).toMatchObject({
      kind: 'keep till morning',
      to: { id: 'ash' },
      keep: KEEP,
      isUnmetDemand: true,
    })
    expect(first!.ribbon!.firstDay).toBe(TODAY + 1)
  })
})

describe('a suspected notifiable disease', () => {
  const suspect = { disease: 'avian influenza', hasLeave: false }

  it('is never admitted, moved, kept or sent on before the leave is recorded', () => {
    fc.assert(
      fc.property(
        fc.boolean(),
        fc.boolean(),
        fc.constantFrom('now', 'today', 'advice'),
        (isLeaveAlone, isHighRisk, urgency) => {
          const asked = question({
            suspect,
            isLeaveAlone,
            urgency,
            keep: KEEP,
            practices: [PRACTICE],
            outside: [OUTSIDE],
          })
          const answer = rankOptions({ ...asked, animals: { ...asked.animals, isHighRisk } }, open)
          expect(new Set(kinds(answer))).toEqual(new Set(['examine outside', 'report', 'advice']))
          expect(
            answer.options.every(option => option.path.length === 0 && option.placesTonight.length === 0),
          ).toBe(true)
          expect(answer.ruledOut[0]).toEqual({
            who: { kind: 'admission' },
            rule: 'notifiable suspect',
            disease: 'avian influenza',
          })
        },
      ),
    )
  })

  it('is examined outside where a door opens first, then reported, then advice', () => {
    const answer = rankOptions(
      withCentre(question({ suspect }), 'ash', { door: { kind: 'shut', opensAt: null } }),
      open,
    )
    expect(answer.options.map(option => [option.kind, option.to?.id])).toEqual([
      ['examine outside', 'birch'],
      ['examine outside', 'cedar'],
      ['report', undefined],
      ['advice', undefined],
    ])
  })

  it('is placed as any other once the leave is recorded', () => {
    const answer = rankOptions(question({ suspect: { ...suspect, hasLeave: true } }), open)
    expect(answer.options[0]!.kind).toBe('admit')
    expect(kinds(answer)).not.toContain('examine outside')
  })
})

describe('what is no admission', () => {
  it('comes first as advice by the leave-alone rule, at no cost', () => {
    const [first, second] = rankOptions(question({ isLeaveAlone: true }), open).options
    expect(first).toMatchObject({ kind: 'advice', total: 0, orderRule: 'leave alone', isUnmetDemand: false })
    expect(second!.kind).toBe('admit')
  })

  it('is otherwise a refusal that costs 20 and comes last, however dear the rest', () => {
    const dear = question({ policy: { ...question().policy, omega: 60 }, outside: [OUTSIDE] })
    const full = ['ash', 'birch', 'cedar'].reduce<PlacementQuestion>(
      (sofar, id) => withCentre(sofar, id, { freeTonight: [] }),
      dear,
    )
    const { options } = rankOptions(full, open)
    expect(options.at(-1)).toMatchObject({ kind: 'advice', total: 20, isUnmetDemand: true })
    expect(options.some(option => option.total > 20)).toBe(true)
  })

  it('costs 5 and the drive when the finder is sent to a known place outside', () => {
    const redirect = of(rankOptions(question({ outside: [OUTSIDE] }), open), 'redirect')!
    expect(redirect.total).toBeCloseTo(5 + 10 / 40, 12)
    expect(redirect).toMatchObject({ isUnmetDemand: true, path: [], addedShortage: { withinHorizon: 0 } })
  })

  it.each([
    ['advice', 0.25],
    ['tomorrow', 0.5],
    ['today', 3],
    ['now', 3],
  ] as const)('costs to be kept till morning at urgency %s: %d', (urgency, cost) => {
    const kept = of(rankOptions(question({ urgency, keep: KEEP }), open), 'keep till morning')!
    expect(kept.terms.find(term => term.kind === 'kept till morning')!.value).toBe(cost)
  })

  it('is kept till morning only on a vet’s word, by somebody who has it', () => {
    const kept = (changes: Partial<PlacementQuestion>) => rankOptions(question(changes), open)
    const ruleOf = (answer: RankedOptions) =>
      answer.ruledOut.find(({ who }) => who.kind === 'keep till morning')?.rule
    expect(ruleOf(kept({ keep: null }))).toBe('no vet agreed')
    expect(ruleOf(kept({ keep: KEEP, isCaught: false }))).toBe('not caught')
    expect(ruleOf(kept({ keep: KEEP, hasFinder: false }))).toBe('nobody to keep it')
    expect(ruleOf(kept({ keep: { ...KEEP, keptBy: 'practice' }, hasFinder: false }))).toBeUndefined()
    expect(kinds(kept({ keep: null }))).not.toContain('keep till morning')
    expect(kinds(kept({ keep: KEEP }))).toContain('keep till morning')
  })

  it('goes straight to a vet with cover, then to the best centre', () => {
    const vet = of(rankOptions(question({ practices: [PRACTICE] }), open), 'vet')!
    expect(vet).toMatchObject({ to: { kind: 'practice', id: 'p1' }, travel: { km: 3 } })
    expect(vet.path[0]!.centre.id).toBe('ash')
    expect(vet.moves[0]).toMatchObject({ from: { id: 'p1' }, to: { id: 'ash' }, km: 8 })
    expect(vet.terms.map(term => term.kind)).toContain('transfer')
  })

  it('goes to a vet even where no centre can follow, as a refusal', () => {
    const closed = question({
      practices: [PRACTICE],
      keep: KEEP,
      centres: question().centres.map(each => ({ ...each, isActive: false })),
    })
    const answer = rankOptions(closed, open)
    expect(of(answer, 'vet')).toMatchObject({ path: [], isUnmetDemand: true, total: 20 + 3 / 40 })
    expect(answer.ruledOut).toContainEqual({ who: { kind: 'keep till morning' }, rule: 'no centre follows' })
  })
})

describe('on random networks', () => {
  it('shows finite costs that add up and chances between 0 and 1, in order', () => {
    fc.assert(
      fc.property(placementCases, drawn => {
        const { asked, outlook } = placementOf(drawn)
        const { options } = rankOptions(
          { ...asked, keep: KEEP, practices: [PRACTICE], outside: [OUTSIDE] },
          outlook,
        )
        const ranked = options.filter(option => option.orderRule === null).map(option => option.total)
        for (const [at, total] of ranked.entries())
          expect(total).toBeGreaterThanOrEqual((ranked[at - 1] ?? 0) - 1e-9)
        for (const option of options) {
          expect(option.terms.reduce((sum, term) => sum + term.value, 0)).toBe(option.total)
          const parts = option.terms.reduce((sum, term) => sum + Math.round(term.shown * 100), 0)
          expect(parts).toBe(Math.round(option.totalShown * 100))
          const chances = [
            ...option.path.flatMap(stop => [stop.chanceOfPlace, stop.reachProbability]),
            ...option.moves.map(move => move.probability),
            ...(option.ribbon?.groundChance ?? []),
          ]
          for (const chance of chances) {
            expect(chance).toBeGreaterThanOrEqual(0)
            expect(chance).toBeLessThanOrEqual(1)
          }
          for (const short of Object.values(option.addedShortage)) {
            expect(Number.isFinite(short)).toBe(true)
            expect(short).toBeGreaterThanOrEqual(0)
          }
        }
        expect(new Set(options.map(option => option.key)).size).toBe(options.length)
      }),
      { numRuns: 60 },
    )
  })

  it('never makes an option cheaper by loading one of its pools', () => {
    fc.assert(
      fc.property(placementCases, fc.nat(2), fc.nat(2), (drawn, atSite, atKind) => {
        const at = atSite % drawn.sites.length
        const site = drawn.sites[at]!
        const loads = site.loads.map((load, kind) => load + (kind === atKind ? 1 : 0))
        const fuller = { ...drawn, sites: drawn.sites.with(at, { ...site, loads }) }
        const totals = (each: typeof drawn) => {
          const { asked, outlook } = placementOf(each)
          const whole = rankOptions(asked, outlook).options.filter(option => option.kind === 'admit')
          return new Map(whole.map(option => [option.key, option.total]))
        }
        const [before, after] = [totals(drawn), totals(fuller)]
        for (const [key, total] of after) expect(total).toBeGreaterThanOrEqual(before.get(key)! - 1e-9)
      }),
      { numRuns: 40 },
    )
  })
})

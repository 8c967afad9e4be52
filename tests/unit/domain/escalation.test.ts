import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { answerersOf, askShown, type Chain, canBeAsked, nextStep } from '#lib/domain/escalation.ts'
import type { PlacementOption } from '#lib/domain/option.ts'
import { bareOption } from '#lib/plan/bare-option.ts'

const ZONE = 'Europe/London'
const option = (id: number, kind: PlacementOption['kind'] = 'admit'): PlacementOption => ({
  ...bareOption(kind, {
    kind: kind === 'vet' ? 'practice' : 'centre',
    id: String(id),
    name: `C${id}`,
    phone: null,
  }),
  key: `${kind}:${id}`,
})
const who = (name: string) => ({ name, phone: `07700 900${name}`, email: null })
const chain = (change: Partial<Chain> = {}): Chain => ({
  answerers: [who('101'), who('102')],
  rung: ['07700 900101'],
  options: [option(1), option(1, 'admit and move'), option(2), option(3, 'vet'), option(4)],
  takenKey: 'admit:1',
  asked: [1],
  barred: [],
  ...change,
})

describe('the next who is asked', () => {
  it('is the next contact of the centre, then the next centre as ranked', () => {
    expect(nextStep(chain(), 'silent')).toEqual({ kind: 'contact', answerer: who('102') })
    const rung = ['07700 900101', '07700 900102']
    expect(nextStep(chain({ rung }), 'silent')).toMatchObject({ kind: 'centre', centreId: 2 })
    expect(nextStep(chain({ rung, asked: [1, 2] }), 'silent')).toMatchObject({ kind: 'centre', centreId: 4 })
  })

  it('is another centre at once after a no', () => {
    expect(nextStep(chain(), 'no')).toMatchObject({ kind: 'centre', centreId: 2 })
  })

  it('passes over centres that can’t take it any more, and practices', () => {
    expect(nextStep(chain({ barred: [2] }), 'no')).toMatchObject({ kind: 'centre', centreId: 4 })
    expect(nextStep(chain({ barred: [2, 4] }), 'no')).toEqual({ kind: 'nobody' })
  })

  it('comes back to the centres before the one that was taken', () => {
    const later = chain({ takenKey: 'admit:4', asked: [4] })
    expect(nextStep(later, 'no')).toMatchObject({ kind: 'centre', centreId: 1, option: { key: 'admit:1' } })
  })

  it('ends, having rung each number and asked each centre once, whatever the order', () => {
    const ids = fc.uniqueArray(fc.integer({ min: 1, max: 9 }), { minLength: 1 })
    fc.assert(
      fc.property(ids, fc.nat(), fc.integer({ min: 1, max: 4 }), (centres, start, contacts) => {
        const options = centres.map(id => option(id))
        const taken = options[start % options.length]!
        const asked = [Number(taken.to?.id)]
        const rungs: string[] = []
        let rung: string[] = []
        for (let steps = 0; steps < 100; steps++) {
          const centre = asked.at(-1)
          const answerers = Array.from({ length: contacts }, (_, n) => who(`${centre}${n}`))
          const step = nextStep(chain({ answerers, rung, options, takenKey: taken.key, asked }), 'silent')
          if (step.kind === 'nobody') break
          if (step.kind === 'contact') {
            rung.push(step.answerer.phone)
            rungs.push(step.answerer.phone)
          } else {
            asked.push(step.centreId)
            rung = []
          }
        }
        expect([...asked].sort()).toEqual([...centres].sort())
        expect(new Set(rungs).size).toBe(rungs.length)
        expect(rungs.length).toBe(centres.length * contacts)
      }),
    )
  })

  it('may be a centre’s whole or first stay, never a vet or a place outside', () => {
    expect(canBeAsked(option(1))).toBe(true)
    expect(canBeAsked(option(1, 'vet'))).toBe(false)
    expect(canBeAsked(option(1, 'keep till morning'))).toBe(false)
  })
})

describe('who answers for a centre', () => {
  const night = { ...who('103'), fromMinute: 1200, untilMinute: 480 }
  const always = { ...who('104'), fromMinute: null, untilMinute: null }
  const centre = {
    name: 'North',
    phone: '01632 960000',
    hours: [],
    nightDoor: 'on-call',
    nightName: 'Ida',
    nightPhone: '01632 960001',
  } as const

  it('are its contacts in their hours', () => {
    const at = (iso: string) => answerersOf(centre, [night, always], new Date(iso), ZONE).map(one => one.name)
    expect(at('2026-01-10T03:00:00Z')).toEqual(['103', '104'])
    expect(at('2026-01-10T12:00:00Z')).toEqual(['104'])
  })

  it('are who opens at night or the centre’s number where nobody of the list may be rung', () => {
    const noon = new Date('2026-01-10T12:00:00Z')
    expect(answerersOf(centre, [night], noon, ZONE)).toEqual([
      { name: 'Ida', phone: '01632 960001', email: null },
    ])
    expect(answerersOf({ ...centre, nightDoor: 'staffed' }, [], noon, ZONE)).toEqual([
      { name: 'North', phone: '01632 960000', email: null },
    ])
  })
})

it('shows an ask as held, seen, agreed, refused, silent or taken back', () => {
  const now = new Date()
  expect(
    (['written', 'put', 'yes', 'no', 'unanswered', 'taken-back'] as const).map(state =>
      askShown(state, null),
    ),
  ).toEqual(['held', 'held', 'agreed', 'refused', 'silent', 'taken back'])
  expect(askShown('put', now)).toBe('seen')
  expect(askShown('yes', now)).toBe('agreed')
})

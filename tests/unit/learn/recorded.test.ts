import { expect, it } from 'vitest'
import { OUTCOMES } from '#lib/domain/outcome.ts'
import { type StageRecord, stayOfRecord } from '#lib/learn/recorded.ts'

const record = (more: Partial<StageRecord>): StageRecord => ({
  key: 'a',
  began: { on: 100 },
  ready: null,
  next: null,
  ended: null,
  ...more,
})
const endOf = (more: Partial<StageRecord>) => stayOfRecord(record(more)).end

it('ends a stage on the day the animal was said ready, whenever it moved and however the case ended', () => {
  const ended = { on: 140, outcome: 'died' } as const
  expect(endOf({ ready: { on: 121 }, next: 130, ended })).toEqual({ kind: 'exit', exit: 'onward', on: 121 })
})

it('keeps the days between which it was said ready', () => {
  expect(endOf({ ready: { on: 121, earliest: 118 } })).toEqual({
    kind: 'exit',
    exit: 'onward',
    on: 121,
    notBefore: 118,
  })
})

it('has it ready on some day until the next stage where nobody said when', () => {
  expect(endOf({ next: 130 })).toEqual({ kind: 'exit', exit: 'onward', on: 130, notBefore: 100 })
})

it('has it in the stage still while nothing ended it', () => {
  expect(stayOfRecord(record({}))).toEqual({ key: 'a', enteredOn: 100, end: null })
})

it('ends it by every outcome there is, and by none where it went on elsewhere', () => {
  const ends = OUTCOMES.map(outcome => {
    const end = endOf({ ended: { on: 107, outcome } })
    return [outcome, end?.kind === 'exit' ? end.exit : end?.kind]
  })
  expect(Object.fromEntries(ends)).toEqual({
    released: 'onward',
    died: 'died',
    euthanased: 'euthanased',
    'dead on arrival': 'died',
    reunited: 'left',
    escaped: 'left',
    'transferred out': 'unseen',
    'permanent care': 'left',
    unknown: 'left',
  })
})

it('reads what was recorded before its beginning as of that day', () => {
  expect(endOf({ ready: { on: 98, earliest: 96 } })).toEqual({
    kind: 'exit',
    exit: 'onward',
    on: 100,
    notBefore: 100,
  })
})

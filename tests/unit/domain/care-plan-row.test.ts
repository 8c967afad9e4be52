import { describe, expect, it } from 'vitest'
import { gateOfRow, headOfRow, rowOfGate, rowOfStage, stageOfRow } from '#lib/domain/care-plan-row.ts'

const row = {
  stage: 'overwintering',
  housingType: 'outdoor-pen',
  minSizeNote: '2 x 2 m',
  readyMedianDays: null,
  readyP90Days: null,
  calendarGate: 'hibernation weight',
  gateOpens: '03-20',
  gateCloses: '05-31',
  gateMinDays: 10,
  gateLagMedianDays: 13,
  gateLagP90Days: 35,
  goesOn: 0.9,
  died: 0.05,
  euthanased: 0.03,
  leftCare: 0.02,
  diedMedianDays: 12,
  diedP90Days: 60,
  euthanasedMedianDays: 9,
  euthanasedP90Days: 50,
  carerMinutesDay: 4,
  markSize: 'M',
  markDurations: 'CP',
  markExitTimes: 'D',
  markShares: 'R:S26',
  markMinutes: 'CP',
  note: 'words',
}
const gate = {
  stage: 'quarantine',
  checkSlug: 'sample',
  what: 'x',
  offsetDays: 1,
  intervalDays: null,
  anchor: 'admission',
  requiredFor: 'next stage',
  who: 'vet',
  mark: 'CP',
  note: null,
}

describe('records and form values', () => {
  it('are the same stage both ways, every column its own', () => {
    const values = Object.values(row).filter(value => value !== null)
    expect(new Set(values).size).toBe(values.length - 1) // only 'CP' stands twice
    expect(rowOfStage(stageOfRow(row))).toEqual(row)
  })

  it('are the same gate both ways', () => {
    expect(rowOfGate(gateOfRow(gate))).toEqual(gate)
  })

  it('refuse a word that no plan knows', () => {
    expect(() => stageOfRow({ ...row, stage: 'holiday' })).toThrow()
    expect(() => gateOfRow({ ...gate, who: 'nobody' })).toThrow()
    const head = { conditionSlug: 'c', planGroupSlug: 'any bird', severity: 'mild', treatment: 'none' }
    expect(headOfRow(head)).toEqual({
      condition: 'c',
      planGroup: 'any bird',
      severity: 'mild',
      treatment: 'none',
    })
    expect(() => headOfRow({ ...head, severity: 'bad' })).toThrow()
  })
})

import { describe, expect, it } from 'vitest'
import {
  gateForm,
  markFieldOf,
  planForm,
  planIdOf,
  type StageValues,
  stageForm,
  withGateMark,
  withMarks,
} from '#lib/domain/care-plan-form.ts'

const typed = {
  stage: 'critical care',
  housing: 'hospital-cage',
  sizeNote: '',
  medianDays: '2',
  p90Days: '5',
  waitsFor: '',
  opens: '',
  closes: '',
  minDays: '',
  lagMedianDays: '',
  lagP90Days: '',
  onward: '70',
  died: '20',
  euthanased: '9,5',
  left: '0.5',
  diedMedianDays: '',
  diedP90Days: '',
  euthanasedMedianDays: '',
  euthanasedP90Days: '',
  carerMinutesPerDay: '20',
  sizeMark: '',
  lengthsMark: 'R:S2',
  exitTimesMark: '',
  sharesMark: 'D',
  minutesMark: 'CP',
  note: '',
}
const problems = (change: object) =>
  (stageForm.safeParse({ ...typed, ...change }).error?.issues ?? []).map(
    issue => `${issue.path.join('.')}: ${issue.code === 'custom' ? issue.params?.['rule'] : issue.code}`,
  )
const stage: StageValues = stageForm.parse(typed)

describe('a stage as it is typed', () => {
  it('is read in days, shares and words', () => {
    expect(stage).toMatchObject({
      medianDays: 2,
      p90Days: 5,
      onward: 0.7,
      euthanased: 0.095,
      left: 0.005,
      opens: null,
      sizeNote: null,
      lengthsMark: 'R:S2',
    })
  })

  it.each([
    [{ medianDays: '' }, ['medianDays: missing']],
    [{ p90Days: '2' }, ['p90Days: p90-not-above-median']],
    [{ onward: '71' }, ['onward: shares-do-not-sum']],
    [{ diedMedianDays: '2' }, ['diedP90Days: missing']],
    [{ euthanasedMedianDays: '3', euthanasedP90Days: '1' }, ['euthanasedP90Days: p90-not-above-median']],
    [{ closes: '10-31' }, ['opens: missing']],
    [{ opens: '03-20' }, ['lagMedianDays: missing', 'lagP90Days: missing']],
    [{ opens: '02-30', lagMedianDays: '1', lagP90Days: '2' }, ['opens: not-a-day-of-the-year']],
    [{ medianDays: '-1' }, ['medianDays: too_small']],
    [{ carerMinutesPerDay: '1441' }, ['carerMinutesPerDay: too_big']],
  ])('refuses %j', (change, expected) => {
    expect(problems(change)).toEqual(expected)
  })

  it('takes a date that opens it instead of a length', () => {
    const dated = { medianDays: '', p90Days: '', opens: '03-20', lagMedianDays: '13', lagP90Days: '35' }
    expect(problems(dated)).toEqual([])
  })
})

describe('marks after an edit', () => {
  it('stay where nothing changed', () => {
    expect(withMarks(stage, stage)).toEqual(stage)
  })

  it('become ours where a number changed, and only there', () => {
    const after = withMarks(stage, { ...stage, medianDays: 3 })
    expect(after).toEqual({ ...stage, medianDays: 3, lengthsMark: 'ours' })
  })

  it('are what the person names', () => {
    expect(withMarks(stage, { ...stage, medianDays: 3, lengthsMark: 'R:S9' }).lengthsMark).toBe('R:S9')
    expect(withMarks(stage, { ...stage, lengthsMark: 'R:S9' }).lengthsMark).toBe('R:S9')
  })

  it('are not lost by emptying the field', () => {
    expect(withMarks(stage, { ...stage, lengthsMark: null }).lengthsMark).toBe('R:S2')
  })

  it('are ours for what is new', () => {
    expect(withMarks(undefined, { ...stage, lengthsMark: null })).toMatchObject({
      lengthsMark: 'ours',
      sharesMark: 'D',
      minutesMark: 'CP',
    })
  })

  it('are known for every number', () => {
    expect([markFieldOf('medianDays'), markFieldOf('died'), markFieldOf('note')]).toEqual([
      'lengthsMark',
      'sharesMark',
      undefined,
    ])
  })
})

describe('a check', () => {
  const gate = {
    stage: 'critical care',
    check: 'weigh',
    what: 'weight holds',
    offsetDays: '',
    intervalDays: '3',
    anchor: 'stage start',
    requiredFor: '',
    who: 'carer',
    mark: 'CP',
    note: '',
  }
  const before = { ...gateForm.parse(gate), mark: 'R:S2' }

  it('is read with nothing where nothing is typed', () => {
    expect(gateForm.parse(gate)).toMatchObject({ offsetDays: null, intervalDays: 3, requiredFor: null })
    expect(gateForm.safeParse({ ...gate, requiredFor: 'tea' }).success).toBe(false)
    expect(gateForm.safeParse({ ...gate, intervalDays: '0' }).success).toBe(false)
  })

  it('becomes ours when its days change, not when its words do', () => {
    expect(withGateMark(before, { ...before, what: 'weight rises' }).mark).toBe('R:S2')
    expect(withGateMark(before, { ...before, intervalDays: 4 }).mark).toBe('ours')
    expect(withGateMark(before, { ...before, intervalDays: 4, mark: 'CP' }).mark).toBe('CP')
    expect(withGateMark(undefined, { ...before, mark: null }).mark).toBe('ours')
  })
})

describe('a new plan', () => {
  it('has a key made from what it is for', () => {
    const head = planForm.parse({
      condition: 'wing-fracture',
      planGroup: 'any bird',
      severity: 'open',
      treatment: 'surgical',
    })
    expect(planIdOf(head)).toBe('wing-fracture.any-bird.open.surgical')
  })
})

import { describe, expect, it } from 'vitest'
import { adviceOption, examineOutsideOption, redirectOption, reportOption } from '#lib/plan/other-option.ts'
import { question } from '#tests/support/placement.ts'

const ROAD = { km: 20, minutes: 24 }

describe('options that are no admission', () => {
  it('cost what policy says, and the drive', () => {
    const place = { id: 'o1', name: 'Pinfold Rescue', phone: null, takesGroup: true, road: ROAD }
    expect(redirectOption(question(), place).total).toBe(5.5)
    expect(adviceOption(question()).total).toBe(20)
    expect(reportOption(question()).total).toBe(20)
    const to = { kind: 'centre', id: 'ash', name: 'Ashdown Quay', phone: null } as const
    expect(examineOutsideOption(question(), to, { road: ROAD, door: { kind: 'open' } }).total).toBe(0.5)
  })

  it('count as unmet demand unless advice is the right answer', () => {
    expect(adviceOption(question()).isUnmetDemand).toBe(true)
    expect(adviceOption(question({ isLeaveAlone: true }))).toMatchObject({ isUnmetDemand: false, total: 0 })
  })

  it('do not let the leave-alone rule stand where a disease is suspected', () => {
    const suspect = { disease: 'avian influenza', hasLeave: false }
    expect(adviceOption(question({ isLeaveAlone: true, suspect })).orderRule).toBe('refusal comes last')
    expect(
      adviceOption(question({ isLeaveAlone: true, suspect: { ...suspect, hasLeave: true } })).orderRule,
    ).toBe('leave alone')
  })
})

import { describe, expect, it } from 'vitest'
import { conditionForm } from '#lib/domain/condition-form.ts'
import { conditionTyped } from '#tests/support/setup-forms.ts'

describe('a condition as it is typed', () => {
  it('is read with finders\u2019 words as a list', () => {
    expect(conditionForm.parse(conditionTyped)).toMatchObject({
      words: ['stuck in a net', 'caught in netting'],
      mayNeedSurgeon: null,
      asksFirst: ['bleeding'],
    })
  })

  it.each([
    ['name', ''],
    ['kind', 'guess'],
    ['defaultUrgency', 'soon'],
    ['quarantine', 'yes'],
    ['asksFirst', ['what-colour']],
    ['markUrgency', ' '],
  ])('is refused for its %s', (field, value) => {
    expect(conditionForm.safeParse({ ...conditionTyped, [field]: value }).success).toBe(false)
  })
})

import { describe, expect, it } from 'vitest'
import { switchForm, versionForm } from '#lib/domain/setup-form.ts'

describe('what every form of setup sends', () => {
  it('is the version it was filled in over', () => {
    expect(versionForm.parse({ version: '3', name: 'x' })).toEqual({ version: 3 })
    expect(
      ['', '0', '-1', 'x', undefined].map(version => versionForm.safeParse({ version }).success),
    ).toEqual([false, false, false, false, false])
  })

  it('is on or off where it switches', () => {
    expect(switchForm.parse({ version: '1', isActive: 'off' })).toEqual({ version: 1, isActive: false })
    expect(switchForm.parse({ version: '1', isActive: 'on' })).toEqual({ version: 1, isActive: true })
    expect(switchForm.safeParse({ version: '1' }).success).toBe(false)
  })
})

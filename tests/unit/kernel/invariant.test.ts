import { describe, expect, it } from 'vitest'
import { assertNever, Bug, invariant } from '#lib/kernel/invariant.ts'

describe('invariant', () => {
  it('passes what holds and stops what does not, with its sentence', () => {
    expect(() => invariant(1, 'one is there')).not.toThrow()
    expect(() => invariant(0, 'the list has a first')).toThrow(new Bug('the list has a first'))
  })
})

describe('assertNever', () => {
  it('names the member nobody handles', () => {
    expect(() => assertNever({ kind: 'pond' } as never, 'keeper')).toThrow(
      new Bug('keeper has a member nobody handles: {"kind":"pond"}'),
    )
    expect(() => assertNever('x' as never)).toThrow('union has a member nobody handles: "x"')
  })
})

import { forbidden, redirect } from 'next/navigation'
import { beforeAll, describe, expect, it, vi } from 'vitest'
import { Failure } from '#lib/kernel/failure.ts'
import { definePublicAction } from '#lib/web/define-action.ts'
import { FRESH } from '#lib/web/form-state.ts'
import { paths } from '#lib/web/paths.ts'
import { stubSurroundings } from './surroundings.ts'

beforeAll(stubSurroundings)

const sent = new FormData()
sent.append('animal', 'kestrel')
sent.append('conditions[]', 'fracture')

const digestOf = (work: Promise<unknown>) =>
  work.then(
    () => '',
    thrown => (thrown as { digest: string }).digest,
  )

describe('an action', () => {
  it('hands the form and the instant to its handler and goes where that says', async () => {
    const seen: unknown[] = []
    const before = Date.now()
    const action = definePublicAction(async ({ form, now }) => {
      seen.push(form, now.getTime() >= before)
      return { to: paths.calls() }
    })
    expect(await digestOf(action(FRESH, sent))).toMatch(/^NEXT_REDIRECT;.*;\/calls;/)
    expect(seen).toEqual([{ animal: 'kestrel', conditions: ['fracture'] }, true])
  })

  it('gives a refusal back with everything typed', async () => {
    const action = definePublicAction(async () => {
      throw new Failure('invalid', { problems: [{ field: 'conditions', reason: 'missing' }] })
    })
    expect(await action(FRESH, sent)).toMatchObject({
      status: 'refused',
      code: 'invalid',
      fieldErrors: { 'conditions[]': 'This is needed' },
      focus: 'conditions[]',
      values: { animal: ['kestrel'], 'conditions[]': ['fracture'] },
    })
  })

  it('lets the control flow of Next pass', async () => {
    const leaving = definePublicAction(async () => redirect(paths.setup()))
    expect(await digestOf(leaving(FRESH, sent))).toContain(';/setup;')
  })

  it('says our mistake where something broke, and keeps what was typed', async () => {
    const written = vi.spyOn(process.stderr, 'write').mockReturnValue(true)
    const action = definePublicAction(async () => {
      throw new TypeError('x is undefined')
    })
    const state = await action(FRESH, sent)
    expect(state).toMatchObject({
      code: 'fault',
      message: 'That is our mistake',
      values: { animal: ['kestrel'] },
    })
    expect(JSON.stringify(state)).not.toContain('undefined')
    expect(written).toHaveBeenCalledOnce()
    written.mockRestore()
  })
})

describe('Next', () => {
  it('marks a refused page by the digest that load relies on', () => {
    vi.stubEnv('__NEXT_EXPERIMENTAL_AUTH_INTERRUPTS', 'true')
    expect(() => forbidden()).toThrow(expect.objectContaining({ digest: 'NEXT_HTTP_ERROR_FALLBACK;403' }))
  })
})

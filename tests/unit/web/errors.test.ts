import { afterEach, describe, expect, it, vi } from 'vitest'
import { Failure } from '#lib/kernel/failure.ts'
import { problemDetails, refusedState } from '#lib/web/errors.ts'

const typed = { name: ['Rush'], 'conditions[]': ['oiled'] }

describe('refusedState', () => {
  it('says what happened, at which fields, with everything typed', () => {
    const failure = new Failure('invalid', {
      problems: [
        { field: 'conditions.0', reason: 'not-listed' },
        { field: 'name', reason: 'too-long', limit: 3 },
      ],
    })
    expect(refusedState(failure, typed, ['name', 'conditions[]'])).toEqual({
      status: 'refused',
      code: 'invalid',
      message: 'Some fields need another look',
      next: 'Each one says what it needs. Everything typed is kept.',
      fieldErrors: { 'conditions[]': 'One of the choices', name: 'At most 3 characters' },
      focus: 'name',
      values: typed,
    })
  })

  it('carries the rule and its data, and puts its sentence at the field', () => {
    const failure = new Failure('rule', { rule: 'sign-in-unknown', field: 'email', data: { tries: 2 } })
    expect(refusedState(failure, {}, ['email'])).toMatchObject({
      rule: 'sign-in-unknown',
      data: { tries: 2 },
      focus: 'email',
      fieldErrors: { email: 'This e-mail and password do not belong together' },
    })
  })
})

describe('a fault', () => {
  afterEach(() => vi.restoreAllMocks())

  it('shows a number to quote and nothing of its text, and is written down without its text', () => {
    const written: string[] = []
    vi.spyOn(process.stderr, 'write').mockImplementation(line => written.push(String(line)) > 0)
    const fault = Object.assign(new Error('Key (email)=(nell@example.org) exists'), { code: 'P2002' })
    const state = refusedState(fault, typed, [])
    const { status, body } = problemDetails(fault)
    expect(state).toMatchObject({ code: 'fault', message: 'That is our mistake', values: typed })
    expect(status).toBe(500)
    expect(written).toHaveLength(2)
    const [line] = written.map(text => JSON.parse(text) as { id: string; stack: string })
    expect(state.next).toContain(line?.id)
    expect(line?.stack).toContain('P2002')
    expect(`${JSON.stringify([state, body])}${written.join('')}`).not.toContain('nell@')
  })
})

describe('problemDetails', () => {
  it('answers with the status, the code and each field', () => {
    const failure = new Failure('invalid', { problems: [{ field: 'page', reason: 'too-small', limit: 1 }] })
    expect(problemDetails(failure)).toEqual({
      status: 422,
      body: {
        title: 'Some fields need another look',
        status: 422,
        detail: 'Each one says what it needs. Everything typed is kept.',
        code: 'invalid',
        errors: [{ field: 'page', say: '1 or more' }],
      },
    })
  })

  it('names the rule that refused', () => {
    expect(problemDetails(new Failure('forbidden', { rule: 'demo-only' }))).toMatchObject({
      status: 403,
      body: { rule: 'demo-only', code: 'forbidden' },
    })
  })
})

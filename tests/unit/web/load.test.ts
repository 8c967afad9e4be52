import { beforeAll, describe, expect, it, vi } from 'vitest'
import { Failure, type FailureCode } from '#lib/kernel/failure.ts'
import { load } from '#lib/web/load.ts'

beforeAll(() => vi.stubEnv('__NEXT_EXPERIMENTAL_AUTH_INTERRUPTS', 'true'))

const outcome = (code: FailureCode) =>
  load(Promise.reject(new Failure(code))).then(
    () => '',
    thrown => (thrown as { digest?: string }).digest ?? (thrown as Failure).code,
  )

describe('load', () => {
  it('gives back what was read', async () => {
    expect(await load(Promise.resolve(7))).toBe(7)
  })

  it('turns a refusal into the page that says it', async () => {
    expect(
      await Promise.all((['not-found', 'invalid', 'forbidden', 'conflict'] as const).map(outcome)),
    ).toEqual([
      'NEXT_HTTP_ERROR_FALLBACK;404',
      'NEXT_HTTP_ERROR_FALLBACK;404',
      'NEXT_HTTP_ERROR_FALLBACK;403',
      'conflict',
    ])
  })

  it('leaves anything else as it was thrown', async () => {
    const bug = new TypeError('x')
    await expect(load(Promise.reject(bug))).rejects.toBe(bug)
  })
})

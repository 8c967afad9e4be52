import { expect, it } from 'vitest'
import { answerInput, referralInput } from '#lib/domain/ask-answer.ts'

const NOW = new Date('2026-06-10T12:00:00Z')
const answer = answerInput({ zone: 'Europe/London', now: NOW })

it('reads a vet’s time by the network’s clock, and a name for each answer', () => {
  expect(answer.parse({ say: 'yes', by: ' Ines Hollow ', comesAt: '2026-06-11T10:30' })).toEqual({
    say: 'yes',
    by: 'Ines Hollow',
    reason: '',
    comesAt: new Date('2026-06-11T09:30:00Z'),
  })
  expect(answer.parse({ say: 'no', by: 'Ines', comesAt: '', reason: ' No theatre ' })).toMatchObject({
    comesAt: undefined,
    reason: 'No theatre',
  })
  for (const wrong of [{ by: ' ' }, { say: 'maybe' }, { reason: 'x'.repeat(301) }]) {
    expect(answer.safeParse({ say: 'yes', by: 'Ines', ...wrong }).success).toBe(false)
  }
})

it('lets no visit lie in the past or beyond two months', () => {
  const at = (comesAt: string) => answer.safeParse({ say: 'yes', by: 'Ines', comesAt }).success
  expect(['2026-06-10T13:00', '2026-08-09T13:00'].map(at)).toEqual([true, true])
  expect(['2026-06-10T12:50', '2026-08-09T13:01', 'tomorrow'].map(at)).toEqual([false, false, false])
})

it('asks a practice for something, with or without a centre for afterwards', () => {
  const put = { practiceId: '3', what: ' Pin the leg ', homeCentreId: '', offers: '' }
  expect(referralInput.parse(put)).toEqual({
    practiceId: 3,
    what: 'Pin the leg',
    homeCentreId: undefined,
    offers: '',
  })
  expect(referralInput.safeParse({ ...put, what: ' ' }).success).toBe(false)
  expect(referralInput.parse({ ...put, homeCentreId: '2' }).homeCentreId).toBe(2)
})

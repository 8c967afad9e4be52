import { expect, it } from 'vitest'
import { ageApartWords, farWords, wayWords } from '#lib/words/companion.ts'

it('says how far, how far apart in age, and what speaks for each way', () => {
  expect(farWords(0)).toBe('same centre')
  expect(farWords(37.6)).toBe('38\u00a0km')
  expect(ageApartWords(1)).toBe('young, came 1 day apart')
  expect(wayWords({ kind: 'out', hasRoom: true, leavesOneAlone: false }, 'out')).toBe('better: room for it')
  expect(wayWords({ kind: 'in', hasRoom: false, leavesOneAlone: true }, null)).toBe(
    'no room now, leaves another alone',
  )
})

import { describe, expect, it } from 'vitest'
import { countedWords, nameRuns, roundSentence, runName, summaryOut } from '#lib/words/round.ts'

const ZONE = 'Europe/London'
const NOW = new Date('2026-11-25T12:00:00Z')

describe('the round in words', () => {
  it('says who is in, who is expected and what is free', () => {
    expect(roundSentence({ inside: 15, expected: 1, emptyEnclosures: 1, placesBeside: 4 })).toBe(
      '15 in, 1 expected, 1 enclosure free, 4 places free beside others',
    )
    expect(roundSentence({ inside: 0, expected: 0, emptyEnclosures: 7, placesBeside: 0 })).toBe(
      '0 in, 7 enclosures free',
    )
  })

  it('says how old the count is, and asks for a round after a day', () => {
    expect(countedWords(new Date('2026-11-25T07:50:00Z'), NOW, ZONE)).toBe('Counted today, 07:50')
    expect(countedWords(new Date('2026-11-24T12:01:00Z'), NOW, ZONE)).toBe('Counted yesterday, 12:01')
    expect(countedWords(new Date('2026-11-22T18:10:00Z'), NOW, ZONE)).toContain('ring first')
    expect(countedWords(null, NOW, ZONE)).toContain('Never counted')
  })

  it.each([
    [['Pen 1', 'Pen 2', 'Pen 3', 'Pen 5', 'Loft'], 'Pen 1 to 3, Pen 5, Loft'],
    [['Pen 9', 'Run 10'], 'Pen 9, Run 10'],
    [[], ''],
  ])('names neighbours together: %j', (names, said) => {
    expect(nameRuns(names)).toBe(said)
  })

  it('names a run by its ends, whatever stands between', () => {
    expect(runName('Weathering 10', 'Weathering 16')).toBe('Weathering 10 to 16')
    expect(runName('Loft', 'Loft')).toBe('Loft')
    expect(summaryOut(3, { inside: 0, free: 2, isEmpty: true, isShut: false })).toBe(
      '3, nobody in. Each takes up to 2.',
    )
  })
})

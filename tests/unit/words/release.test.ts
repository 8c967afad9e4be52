import { expect, it } from 'vitest'
import { barredWords, fitSentence, siteWords, waitedFor } from '#lib/words/release.ts'

it('says every animal and every bar, each a sentence', () => {
  expect(
    barredWords([
      { reference: 'Bramble 13', bars: [{ rule: 'implant', kind: 'pin' }, { rule: 'vet' }] },
      { reference: 'Rush 12', bars: [{ rule: 'law', meaning: 'no release in Britain' }] },
    ]),
  ).toBe(
    'Bramble 13: Pin is recorded in place, and no vet has signed that it stays; Its plan asks for the word of a vet that it may go. ' +
      'Rush 12: The law bars its release without a licence of its own: no release in Britain',
  )
})

it('counts waiting in place-days and says what for', () => {
  expect(fitSentence(2, 13)).toBe('2 animals are fit and still here, 13 place-days of waiting so far')
  expect(fitSentence(0, 0)).toBe('Nobody is fit to go')
  expect(waitedFor(new Map([['weather', 12]]))).toBe('By what they wait for: weather 12 days.')
})

it('tells the place of a sensitive species only roughly', () => {
  expect(siteWords({ words: '', at: { latitude: 54.2, longitude: -3 }, isCoarse: true })).toBe(
    'place kept back, within about 10 km of 54.2, -3',
  )
  expect(siteWords({ words: 'Wood', at: null, isCoarse: false })).toBe('Wood')
})

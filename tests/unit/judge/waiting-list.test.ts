/** A waiting list on its real dates: that no forecast sees ahead, and that the README's panel is what the code gives. */
import { expect, test } from 'vitest'
import { panelInReadme, panelText } from '../../bench/waiting-list.ts'
import golden from '../../golden/jasa.json' with { type: 'json' }
import { forecastWaitingList } from '../../support/waiting-list/forecast.ts'
import { COUNTS, knownOn, LAST_DAY, PEOPLE, type Person } from '../../support/waiting-list/record.ts'

test('the counts are those that R makes of the same dates (tests/golden/jasa.R)', () => {
  expect(PEOPLE).toHaveLength(103)
  expect(PEOPLE.filter(({ operated }) => operated !== null)).toHaveLength(69)
  expect(COUNTS).toEqual(golden.counts)
})

test('what is known on a day holds nothing of that day or a later one', () => {
  for (const asOf of [golden.origins[0]!, golden.origins[150]!, LAST_DAY]) {
    const known = knownOn(asOf)
    expect(known.length).toBeGreaterThan(10)
    for (const { accepted, operated, seen, isDead } of known) {
      expect(Math.max(accepted, operated ?? accepted)).toBeLessThan(asOf)
      expect(seen).toBeLessThanOrEqual(asOf)
      if (isDead) expect(seen).toBeLessThan(asOf)
    }
  }
})

test('another future leaves the forecast as it is, another past does not', () => {
  const origin = golden.origins[120]!
  const changed = (from: number): Person[] =>
    PEOPLE.map(person => ({
      ...person,
      operated: person.operated !== null && person.operated > from ? null : person.operated,
      seen: person.seen > from ? from + 4000 : person.seen,
      isDead: person.isDead && person.seen <= from,
    })).filter(({ accepted }) => accepted <= from)
  const told = (people: readonly Person[]) =>
    ['waiting', 'operated'].map(series => forecastWaitingList(origin, 90, people)(series, 28))
  expect(told(changed(origin))).toEqual(told(PEOPLE))
  expect(told(changed(origin - 60))).not.toEqual(told(PEOPLE))
})

test('forecasts are distributions with the mean of what they are made of', () => {
  const forecast = forecastWaitingList(golden.origins[200]!, 90)
  for (const series of ['waiting', 'operated'])
    for (const horizon of [1, 7, 28, 90]) {
      const pmf = forecast(series, horizon)
      expect(Math.abs(pmf.reduce((a, b) => a + b, 0) - 1)).toBeLessThan(1e-12)
    }
})

test("the README's panel is what the code gives: npm run verify:judge -- readme writes it", () => {
  expect(panelInReadme()).toBe(panelText())
})

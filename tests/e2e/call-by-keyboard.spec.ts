/**
 * Journey 1: the coordinator, 23:40, a bird in a box. Keys only: no pointer, no filling of fields (a test of the
 * house reads this file for that). At most 15 keys beside typed words; no closed door offered.
 */
import { expect, type Page } from '@playwright/test'
import { COORDINATOR, Keys, test } from '#tests/support/journey.ts'

const KEYS_MAX = 15

test('a call at 23:40 ends in a place within 15 keys', async ({ page, asPerson, setClock, records }) => {
  // The next 23:40: in the last minutes of a day today's is over, and what was entered since would lie ahead.
  const [tonight] = await records<{ at: Date }>(
    `select (date_trunc('day', now() at time zone time_zone + interval '20 minutes') + interval '23 hours 40 minutes')
              at time zone time_zone as at from network`,
  )
  // A drive of the demonstration that is late by then would have an alarm of its own above the page.
  await records('update leg set alarm_at = null where ended_at is null')
  await setClock(tonight!.at)
  // Somebody holds the line at that hour, at whatever hour the demonstration was made.
  await records(
    `update line_turn set until_at = greatest(until_at, $1::timestamptz + interval '8 hours') where ended_at is null`,
    [tonight!.at],
  )
  await asPerson(COORDINATOR)
  await page.goto('/calls')
  const keys = new Keys(page)

  // Over the skip link to the page; its first button takes a call.
  await keys.press('Tab')
  await keys.press('Enter')
  await keys.press('Tab')
  await keys.press('Enter')
  await expect(page).toHaveURL(/\/calls\/\d+$/)
  await expect(page.locator('input[name="animalTyped"]')).toBeFocused()
  await keys.type('kestrel')
  await keys.press('Tab')
  await expectFocus(page, 'whereTyped', keys)
  await keys.type('Heskwith lane')
  await keys.press('Tab')
  await expectFocus(page, 'wrongTyped', keys)
  await keys.type('broken leg')
  await keys.press('Enter')

  const options = page.locator('.option')
  await expect(options.first()).toBeVisible()
  await expect(page.locator('h1')).toContainText('Best now')
  // Shut at night: ruled out with its sentence, never offered as an admission.
  for (const shut of ['Tamsel House', 'Lanternhay']) {
    await expect(page.locator('.option h3', { hasText: new RegExp(`^${shut}`) })).toHaveCount(0)
    await expect(page.locator('#ruled-out li', { hasText: shut }).first()).toBeVisible()
  }
  await keys.press('Control+Enter')
  await expect(page.locator('h1')).toContainText('expected at')
  const reference = await page.locator('.ref').textContent()
  expect(reference).toMatch(/^[A-Z][a-z]+ \d{2,3}$/)
  const [hold] = await records<{ holds: number }>(
    `select count(*)::int as holds from claim join casualty on casualty.id = claim.casualty_id
      where reference = $1 and kind = 'hold' and state = 'live'`,
    [reference],
  )
  expect(hold!.holds).toBe(1)
  console.log(`journey 1: ${keys.pressed} keys beside typed words (at most ${KEYS_MAX})`)
  expect(keys.pressed).toBeLessThanOrEqual(KEYS_MAX)
})

async function expectFocus(page: Page, name: string, keys: Keys): Promise<void> {
  const focused = () => page.evaluate(() => document.activeElement?.getAttribute('name') ?? '')
  // Choices that appear while typing stand between two fields and cost a key each.
  for (let more = 0; more < 5 && (await focused()) !== name; more++) await keys.press('Tab')
  expect(await focused()).toBe(name)
}

/**
 * The first minute: front page, the waiting call, the best answer that is not the nearest, option 1 taken, the weeks
 * ahead. Every number is read again from the records or from the page it must agree with.
 */
import { expect, type Page } from '@playwright/test'
import { test } from '#tests/support/journey.ts'

test('one button, a best answer that is not the nearest, and the same rise in the weeks ahead', async ({
  page,
  records,
}) => {
  const begun = Date.now()
  const [held] = await records<{ centres: number; animals: number }>(
    `select (select count(*)::int from centre where is_active) as centres,
            (select count(*)::int from whereabouts where until is null and keeper = 'centre') as animals`,
  )
  await page.goto('/')
  await expect(page.locator('h1')).toHaveText(
    `${held!.centres} centres hold ${held!.animals} animals tonight`,
  )
  await expect(page.locator('main')).toContainText('all invented')
  await page.getByRole('button', { name: 'Answer the waiting call' }).click()
  await expect(page).toHaveURL(/\/calls\/\d+$/)

  const first = page.locator('.option').first()
  await expect(first.locator('.why')).toContainText('Not the nearest')
  await termsAddUp(page)
  const called = page.url()

  const before = await shortInAll(page)
  await page.goto(called)
  const said = await costToOthers(first.locator('.option-facts'))
  await page.getByRole('button', { name: 'Take option 1' }).click()
  await expect(page.locator('h1')).toContainText('expected at')
  const reference = (await page.locator('.ref').textContent()) ?? ''
  await expect(page.locator('#say')).toContainText(`Say ${reference} when you arrive`)

  const after = await shortInAll(page)
  // Each of the three is rounded to two decimals.
  expect(Math.abs(after - before - said)).toBeLessThanOrEqual(0.0151)
  const [hold] = await records<{ name: string }>(
    `select e.name from claim k join casualty c on c.id = k.casualty_id join enclosure e on e.id = k.enclosure_id
      where c.reference = $1 and k.kind = 'hold' and k.state = 'live'`,
    [reference],
  )
  await page.goto(called)
  await expect(page.locator('.lede')).toContainText(hold!.name)
  console.log(`first minute: ${((Date.now() - begun) / 1000).toFixed(1)} s by machine`)
})

/** Every option's terms, as shown, make its total, as shown. */
async function termsAddUp(page: Page): Promise<void> {
  const sums = await page.locator('.option .cost').evaluateAll(lists =>
    lists.map(list => {
      const days = [...list.querySelectorAll('.days')].map(one => Number(one.textContent))
      return { total: days.at(-1) ?? 0, sum: days.slice(0, -1).reduce((sum, one) => sum + one, 0) }
    }),
  )
  expect(sums.length).toBeGreaterThan(3)
  for (const { total, sum } of sums) expect(sum).toBeCloseTo(total, 6)
}

async function shortInAll(page: Page): Promise<number> {
  await page.goto('/weeks?days=180')
  return Number(/([\d.]+)\s+place-days/.exec((await page.locator('.weeks-total').textContent()) ?? '')?.[1])
}

async function costToOthers(facts: ReturnType<Page['locator']>): Promise<number> {
  const text = (await facts.locator('div', { hasText: 'Cost to others' }).locator('dd').textContent()) ?? ''
  return Number(/^([\d.]+)/.exec(text)?.[1])
}

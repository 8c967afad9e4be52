/**
 * Nothing typed on a call is lost: not on a reload, not with the connection gone, not with both.
 */
import { expect } from '@playwright/test'
import { COORDINATOR, test } from '#tests/support/journey.ts'

test('a reload keeps the sheet, and so does a connection that comes back', async ({
  page,
  context,
  asPerson,
}) => {
  await asPerson(COORDINATOR)
  await page.goto('/calls')
  await page.getByRole('button', { name: 'Take a call' }).click()
  await page.locator('input[name="animalTyped"]').fill('tawny owl')
  await expect(page.locator('.keeping')).toHaveText('Kept as typed')
  await page.reload()
  await expect(page.locator('input[name="animalTyped"]')).toHaveValue('tawny owl')

  // Only the sending of the sheet fails: the page can still be loaded, as through a worse and better spot.
  await page.route('**/api/calls/*/sheet', route => route.abort())
  await page.locator('textarea[name="notes"]').fill('sits under the third beech')
  await page.locator('input[name="finderName"]').fill('Ottoline')
  await expect(page.locator('.keeping')).toContainText('Not kept yet')
  await page.unroute('**/api/calls/*/sheet')
  await page.reload()
  await expect(page.locator('textarea[name="notes"]')).toHaveValue('sits under the third beech')
  await expect(page.locator('input[name="finderName"]')).toHaveValue('Ottoline')
  await expect(page.locator('.keeping')).toHaveText('Kept as typed')
  await page.evaluate(() => sessionStorage.clear())
  await page.reload()
  await expect(page.locator('input[name="finderName"]')).toHaveValue('Ottoline')
  expect(await page.evaluate(() => sessionStorage.length)).toBe(0)
  await context.close()
})

/**
 * The line rings while somebody is on it: one key puts the call aside with everything typed and opens the next; a
 * promised call-back has a time and an owner, and is done in one tap with what was said.
 */
import { expect } from '@playwright/test'
import { COORDINATOR, Keys, test } from '#tests/support/journey.ts'

test.beforeEach(() => test.setTimeout(180_000))

test('one key from the middle of a word puts the call aside, and every word is there', async ({
  page,
  asPerson,
}) => {
  await asPerson(COORDINATOR)
  await page.goto('/calls')
  await page.getByRole('button', { name: 'Take a call' }).click()
  await expect(page.locator('input[name="animalTyped"]')).toBeFocused()
  const path = new URL(page.url()).pathname
  await page.locator('input[name="finderName"]').fill('Isolde')
  await page.locator('textarea[name="notes"]').fill('')
  await page.locator('textarea[name="notes"]').focus()
  const keys = new Keys(page)
  await keys.type('on the step behind the chape')
  await keys.press('Shift+F2')
  await expect(page).not.toHaveURL(new RegExp(`${path}$`))
  await expect(page).toHaveURL(/\/calls\/\d+$/)
  await expect(page.locator('input[name="animalTyped"]')).toBeFocused()
  await expect(page.locator('input[name="animalTyped"]')).toHaveValue('')
  console.log(`second call: ${keys.pressed} keys held together, from the middle of a word`)

  await page.goto('/calls')
  const row = page.locator('#waiting tr', { has: page.locator(`a[href="${path}"]`) })
  await expect(row).toContainText(/put aside by Marit Sollwyn, \d\d:\d\d/)
  await row.locator('a').first().click()
  await expect(page.locator('textarea[name="notes"]')).toHaveValue('on the step behind the chape')
  await expect(page.locator('input[name="finderName"]')).toHaveValue('Isolde')
})

test.describe('without JavaScript', () => {
  test.use({ javaScriptEnabled: false })

  test('a call is put aside, rung back and done with what was said', async ({ page, asPerson, records }) => {
    await asPerson(COORDINATOR)
    await page.goto('/calls')
    await page.getByRole('button', { name: 'Take a call' }).click()
    const path = new URL(page.url()).pathname
    await page.locator('input[name="animalTyped"]').fill('hedgehog')
    await page.getByRole('button', { name: 'Put aside, take the next call' }).click()
    await expect(page).not.toHaveURL(new RegExp(`${path}$`))
    await page.goto(path)
    await expect(page.locator('input[name="animalTyped"]')).toHaveValue('hedgehog')
    await page.locator('summary', { hasText: 'Promise a call back' }).click()
    await page.locator('select[name="callBackMinutes"]').selectOption('10')
    await page.locator('select[name="callBackOwner"]').selectOption({ label: 'Joss Penhaddon' })
    await page.locator('input[name="callBackWhat"]').fill('Has it moved?')
    await page.getByRole('button', { name: 'Promise it' }).click()
    const row = page.locator('#call-backs tr', { hasText: 'Has it moved?' })
    await expect(row).toContainText('Joss Penhaddon')
    await expect(row).toContainText(/in (9|10).min/)
    await records(`update call_back set due_at = due_at - interval '25 minutes' where what = 'Has it moved?'`)
    await page.reload()
    // Overdue stands first, before what is due later.
    await expect(page.locator('#call-backs tbody tr').first()).toContainText(/overdue by/)
    await row.locator('input[name="said"]').fill('Walked off by itself')
    await row.getByRole('button', { name: 'Rang back' }).click()
    await expect(page.locator('#call-backs')).not.toContainText('Has it moved?')
    await page.goto(path)
    await expect(page.locator('.rung')).toContainText('Marit Sollwyn: Walked off by itself')
  })
})

/**
 * A tablet that several people share: whoever stands before it gives initials and a short code with each entry, and the
 * record says who. A wrong code records nothing and keeps what was typed.
 */
import { type Browser, expect, type Page } from '@playwright/test'
import { HOSPITAL_CARER, test } from '#tests/support/journey.ts'
import { signIn } from '#tests/support/session.ts'

const COLLEAGUE = 'petra.winterslow@roostwright.example'
const [INITIALS, CODE, WRONG] = ['PWI', '40271', '40272']
/** No animal of the demonstration weighs this. */
const GRAMS = 123_950

test.setTimeout(180_000)

/** The colleague chooses her initials and code on a device of her own. */
async function chooseCode(browser: Browser): Promise<void> {
  const context = await browser.newContext()
  await signIn(context, COLLEAGUE)
  const page = await context.newPage()
  await page.goto('/me')
  const form = page.locator('#code')
  await form.getByLabel('Initials').fill(INITIALS)
  await form.getByLabel('Short code').fill(CODE)
  await form.getByRole('button', { name: 'Keep initials and code' }).click()
  await expect(page.locator('main')).toContainText('Initials and code are kept')
  await context.close()
}

async function shareTablet(page: Page): Promise<void> {
  await page.goto('/me')
  await page.getByRole('button', { name: 'This tablet is shared' }).click()
  await expect(page).toHaveURL(/\/round/)
  await expect(page.locator('body')).toContainText('Shared tablet')
}

async function openFirstLine(page: Page) {
  await page.goto('/round')
  await page.getByRole('link', { name: 'As a list, to record' }).click()
  await page.locator('.walk-line.opens').first().click()
  return page.locator('.taps-of-line')
}

const isNarrow = (page: Page) =>
  page.evaluate(() => document.documentElement.scrollWidth <= window.innerWidth)

for (const [width, grams] of [
  [390, GRAMS],
  [1280, GRAMS + 1],
] as const) {
  test(`at ${width} px an entry is recorded once, under whoever gave initials and code`, async ({
    page,
    browser,
    asPerson,
    records,
  }) => {
    const weighed = () =>
      records<{ name: string }>(
        `select p.name from weight w join entry e on e.id = w.entry_id join person p on p.id = e.entered_by
          where w.grams = $1`,
        [grams],
      )
    await chooseCode(browser)
    await asPerson(HOSPITAL_CARER)
    await page.setViewportSize({ width, height: 844 })
    await shareTablet(page)

    const panel = await openFirstLine(page)
    await panel.getByLabel('Weight in g').fill(String(grams))
    await panel.getByLabel('Initials').fill(INITIALS)
    await panel.getByLabel('Short code').fill(WRONG)
    await panel.getByRole('button', { name: 'Save weight' }).click()
    await expect(panel.getByRole('alert')).toContainText('do not belong together')
    await expect(panel.getByLabel('Weight in g')).toHaveValue(String(grams))
    await expect(panel.getByLabel('Initials')).toHaveValue(INITIALS)
    await expect(panel.getByLabel('Short code')).toHaveValue('')
    expect(await weighed()).toEqual([])
    expect(await isNarrow(page)).toBe(true)

    await panel.getByLabel('Short code').fill(CODE)
    await panel.getByRole('button', { name: 'Save weight' }).click()
    await expect(page).toHaveURL(/done=\d+/)
    await expect(page.locator('main')).toContainText(`weight ${grams} g`)
    expect(await weighed()).toEqual([{ name: 'Petra Winterslow' }])

    // What was sent is not sent again by reading the page anew; nothing waits on a tablet that keeps no queue.
    await page.reload()
    expect(await weighed()).toHaveLength(1)
    expect(await page.evaluate(async () => (await indexedDB.databases()).length)).toBe(0)

    // What asks for no code is not entered there.
    await page.goto('/me')
    await page.getByRole('button', { name: 'Keep initials and code' }).scrollIntoViewIfNeeded()
    await page.locator('#code').getByLabel('Initials').fill('XX')
    await page.locator('#code').getByLabel('Short code').fill('99881')
    await page.getByRole('button', { name: 'Keep initials and code' }).click()
    await expect(page.locator('#code').getByRole('alert')).toContainText(
      'A shared tablet takes entries of the round alone',
    )
  })
}

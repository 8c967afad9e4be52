/**
 * Two coordinators and the last place: one has it, the other's sheet stays with every character typed, says what
 * happened and offers the next best.
 */
import { type Browser, expect, type Page } from '@playwright/test'
import { COORDINATOR, takeOption, test } from '#tests/support/journey.ts'
import { signIn } from '#tests/support/session.ts'

/** Shares an enclosure with nobody, so one enclosure is one place. */
const SOLITARY = 'Sparrowhawk'
const NOTES = 'Left wing held low, shouting neighbour, gate code 4711'

test('two take the last place: one has it, the other keeps everything typed', async ({
  browser,
  records,
}) => {
  const probe = await callOf(browser)
  const centre = await nearestOf(probe)
  const closures = await closeAllButOne(records, centre)
  try {
    const [first, second] = [await callOf(browser), await callOf(browser)]
    await take(first, centre)
    await expect(first.locator('h1')).toContainText('expected at')

    await second.locator('textarea[name="notes"]').fill(NOTES)
    await take(second, centre)
    const notice = second.locator('[role="alert"].say').first()
    await expect(notice).toContainText('Just taken')
    await expect(second.locator('textarea[name="notes"]')).toHaveValue(NOTES)
    await expect(second.locator('input[name="animalTyped"]')).toHaveValue(SOLITARY)
    await expect(second.locator('.option').first()).toBeVisible()
    await second.reload()
    await expect(second.locator('textarea[name="notes"]')).toHaveValue(NOTES)
  } finally {
    for (const { id } of closures) await records('select lift_closure($1, now())', [id])
    await records('select bump()')
  }
})

async function callOf(browser: Browser): Promise<Page> {
  const context = await browser.newContext()
  await signIn(context, COORDINATOR)
  const page = await context.newPage()
  await page.goto('/calls')
  await page.getByRole('button', { name: 'Take a call' }).click()
  await page.locator('input[name="animalTyped"]').fill(SOLITARY)
  await page.locator('input[name="whereTyped"]').fill('Heskwith lane')
  await page.locator('input[name="wrongTyped"]').fill('broken leg')
  await page.getByRole('button', { name: 'Rank again' }).click()
  await expect(page.locator('.option').first()).toBeVisible()
  return page
}

/** The centre of the first option that admits for the whole stay. */
async function nearestOf(page: Page): Promise<string> {
  const title = await page.locator('.option h3', { hasText: 'for the whole stay' }).first().textContent()
  return (title ?? '').replace(' for the whole stay', '')
}

async function take(page: Page, centre: string): Promise<void> {
  const option = page.locator('.option', {
    has: page.locator('h3', { hasText: `${centre} for the whole stay` }),
  })
  await takeOption(option)
}

/** Shuts every heated unit that is free or soon will be, but one: that place is then the last. */
async function closeAllButOne(
  records: <T extends Record<string, unknown>>(sql: string, values?: readonly unknown[]) => Promise<T[]>,
  centre: string,
): Promise<{ id: number }[]> {
  const closed = await records<{ id: number }>(
    `select close_enclosure(null, id, now() - interval '1 minute', null, 'the test keeps one open', now()) as id
       from (select e.id, row_number() over (order by exists (
                      select from claim k where k.enclosure_id = e.id and k.state = 'live' and k.ends_at > now()), e.id) as nth
               from enclosure e join centre c on c.id = e.centre_id
              where c.name = $1 and e.housing_type = 'intensive-care' and e.is_active
                and not exists (select from claim k where k.enclosure_id = e.id and k.state = 'live' and k.ends_at is null)) free
      where nth > 1`,
    [centre],
  )
  // As every writer does last: what was read before is then old.
  await records('select bump()')
  return closed
}

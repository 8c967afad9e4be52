/**
 * With JavaScript off: signing in, a call from the first question to the reference, and every form of the later pages.
 * The browser only follows links and sends forms.
 */
import { expect, type Page } from '@playwright/test'
import { DEMO_PASSWORD } from '#lib/domain/demo-password.mjs'
import { ADMINISTRATOR, COORDINATOR, HOSPITAL_CARER, takeOption, test } from '#tests/support/journey.ts'

test.use({ javaScriptEnabled: false })

test('a refused sign-in keeps the e-mail; the next one leads to the page that was asked for', async ({
  page,
}) => {
  await page.goto('/casualties')
  await expect(page).toHaveURL(/\/sign-in\?to=/)
  const sign = async (password: string) => {
    await page.getByLabel('E-mail').fill(COORDINATOR)
    await page.getByLabel('Password').fill(password)
    await page.getByRole('button', { name: 'Sign in' }).click()
  }
  await sign('not the word')
  await expect(page.getByRole('alert')).toBeVisible()
  await expect(page.getByLabel('E-mail')).toHaveValue(COORDINATOR)
  await expect(page.getByLabel('Password')).toHaveValue('')
  await sign(DEMO_PASSWORD)
  await expect(page).toHaveURL(/\/casualties$/)
  await page.getByRole('button', { name: 'Sign out' }).click()
  await page.goto('/casualties')
  await expect(page).toHaveURL(/\/sign-in/)
})

test('a call is taken, ranked and answered with a reference', async ({ page, asPerson }) => {
  await asPerson(COORDINATOR)
  await page.goto('/calls')
  await page.getByRole('button', { name: 'Take a call' }).click()
  await expect(page).toHaveURL(/\/calls\/\d+$/)
  await page.locator('input[name="animalTyped"]').fill('tawny owl')
  await page.locator('input[name="whereTyped"]').fill('Heskwith lane')
  await page.locator('input[name="wrongTyped"]').fill('broken wing')
  await page.locator('textarea[name="notes"]').fill('In a box, dark and quiet')
  await page.getByRole('button', { name: 'Rank again' }).click()
  await expect(page.locator('.option').first()).toBeVisible()
  await expect(page.locator('textarea[name="notes"]')).toHaveValue('In a box, dark and quiet')
  await takeOption(page.locator('.option.first'))
  await expect(page.locator('h1')).toContainText('expected at')
  await expect(page.locator('.ref')).toHaveText(/^[A-Z][a-z]+ \d{2,3}$/)
})

test('the waiting call opens from the front page', async ({ page }) => {
  await page.goto('/')
  await page.locator('main button').click()
  await expect(page).toHaveURL(/\/calls(\/\d+)?$/)
})

test('an animal is looked for, noted on and weighed; what was refused is open again with what was typed', async ({
  page,
  asPerson,
  records,
}) => {
  await asPerson(HOSPITAL_CARER)
  const [animal] = await records<{ reference: string; id: number }>(
    `select c.reference, c.id from whereabouts w join casualty c on c.id = w.casualty_id join centre n on n.id = w.centre_id
      where w.until is null and n.name = 'Averbrook Wildlife Hospital' order by c.id desc limit 1`,
  )
  await page.goto('/casualties')
  await page.locator('input[name="text"]').fill(animal!.reference)
  await page
    .locator('form', { has: page.locator('input[name="text"]') })
    .getByRole('button')
    .first()
    .click()
  await page.locator('main table').getByRole('link', { name: animal!.reference }).first().click()
  await expect(page).toHaveURL(/\/casualties\//)

  await act(page, 'words', 'Took two mice')
  await expect(page.getByRole('status').first()).toBeVisible()
  await expect(page.locator('main')).toContainText('Took two mice')

  await act(page, 'grams', 'heavy')
  const refused = page.locator('details.act[open]', { has: page.locator('input[name="grams"]') })
  await expect(refused.getByRole('alert')).toBeVisible()
  await expect(refused.locator('input[name="grams"]')).toHaveValue('heavy')
  await act(page, 'grams', '431')
  const [weighed] = await records<{ grams: number }>(
    'select grams::float from weight where casualty_id = $1 order by id desc limit 1',
    [animal!.id],
  )
  expect(weighed!.grams).toBe(431)
})

/** Opens the form that has a field, types and sends it. */
async function act(page: Page, field: string, typed: string): Promise<void> {
  const forms = page.locator('details.act', { has: page.locator(`[name="${field}"]`) })
  // The last: a weight can also be typed with a check, and that stands before.
  const details = forms.last()
  if (!(await details.evaluate(one => (one as HTMLDetailsElement).open)))
    await details.locator('summary').click()
  await details.locator(`[name="${field}"]`).fill(typed)
  await details.locator('form button').last().click()
}

test('a round is counted as shown, a line fixed, and both taken back', async ({
  page,
  asPerson,
  records,
}) => {
  const count = async () =>
    (await records<{ at: Date }>(`select counted_at as at from centre where id = 1`))[0]?.at
  await asPerson(HOSPITAL_CARER)
  // A carer of one centre is led to its round.
  await page.goto('/round')
  await expect(page).toHaveURL(/\/round\/\d+$/)
  const before = await count()
  await page.getByRole('button', { name: 'As shown' }).click()
  await expect(page).toHaveURL(/done=\d+/)
  expect(await count()).not.toEqual(before)
  await page.getByRole('button', { name: 'Take it back' }).click()
  await expect(page.getByText('Taken back: counted as shown')).toBeVisible()
  expect(await count()).toEqual(before)

  const weights = async () =>
    (
      await records<{ n: number }>(`
      select count(*)::int as n from weight x where grams = 123.5 and not is_void
         and not exists (select from weight v where v.supersedes = x.id and v.is_void)`)
    )[0]?.n
  await page.getByRole('link', { name: 'As a list, to record' }).click()
  await page.locator('a.walk-line').first().click()
  await page.locator('[name="grams"]').fill('heavy')
  await page.getByRole('button', { name: 'Save weight' }).click()
  await expect(page.locator('[name="grams"]')).toHaveValue('heavy')
  await page.locator('[name="grams"]').fill('123,5')
  await page.getByRole('button', { name: 'Save weight' }).click()
  await expect(page.getByText(': weight 123.5 g')).toBeVisible()
  expect(await weights()).toBe(1)
  await page.getByRole('button', { name: 'Take it back' }).click()
  await expect(page.getByText('Taken back: ')).toBeVisible()
  expect(await weights()).toBe(0)
  await page.goto('/weeks')
  await page.locator('main a[href^="/weeks/"]').first().click()
  await expect(page).toHaveURL(/\/weeks\/\d+/)
})

const NOUNS = [
  'centres',
  'rooms',
  'enclosures',
  'closures',
  'practices',
  'drivers',
  'arrivals',
  'plans',
  'people',
]

test('each list of setup opens its rows, and each empty form says what it needs', async ({
  page,
  asPerson,
}) => {
  await asPerson(ADMINISTRATOR)
  for (const noun of NOUNS) {
    await page.goto(`/setup/${noun}`)
    await page.locator(`main a[href^="/setup/${noun}/"]:not([href$="/new"])`).first().click()
    await expect(page.locator('h1')).toBeVisible()
    await page.goto(`/setup/${noun}/new`)
    const form = page.locator('main form.setup-form')
    await form.evaluate(one => one.setAttribute('novalidate', ''))
    await form.locator('button').last().click()
    await expect(page.getByRole('alert'), noun).toBeVisible()
  }
})

test('a room is added, changed, switched off and on again', async ({ page, asPerson }) => {
  await asPerson(ADMINISTRATOR)
  await page.goto('/setup/rooms/new')
  await page.locator('main form.setup-form input[name="name"]').fill('Room of the plain form')
  await page.locator('main form.setup-form input[name="walkingOrder"]').fill('90')
  for (const select of await page.locator('main form.setup-form select').all()) {
    if ((await select.inputValue()) === '') await select.selectOption({ index: 1 })
  }
  await page.locator('main form.setup-form button').last().click()
  await expect(page).toHaveURL(/\/setup\/rooms\/\d+\?kept=added/)
  await page.locator('main form.setup-form input[name="name"]').first().fill('Room of the plainest form')
  await page.locator('main form.setup-form button').first().click()
  await expect(page).toHaveURL(/kept=changed/)
  for (const kept of ['off', 'on']) {
    await page.locator('main form').last().locator('button').last().click()
    await expect(page).toHaveURL(new RegExp(`kept=${kept}`))
  }
})

/**
 * With JavaScript off: the line passes from one to the next, and somebody new comes in by a link, chooses a password and
 * changes it. What is refused says why and changes nothing.
 */
import { expect, type Page } from '@playwright/test'
import { DEMO_PASSWORD } from '#lib/domain/demo-password.mjs'
import { ADMINISTRATOR, COORDINATOR, test } from '#tests/support/journey.ts'
import { signIn } from '#tests/support/session.ts'

const SECOND = 'joss.penhaddon@roostwright.example'
const PLAIN = { javaScriptEnabled: false } as const

test.use(PLAIN)

const formOf = (page: Page, submit: string) =>
  page.locator('main form', { has: page.getByRole('button', { name: submit, exact: true }) })

async function send(page: Page, submit: string, fields: Readonly<Record<string, string>>): Promise<void> {
  const form = formOf(page, submit)
  for (const [name, typed] of Object.entries(fields)) await form.locator(`[name="${name}"]`).fill(typed)
  await form.evaluate(one => one.setAttribute('novalidate', ''))
  await form.getByRole('button', { name: submit, exact: true }).click()
}

test('the line is offered, accepted, and taken over only with a reason', async ({
  page,
  asPerson,
  browser,
  records,
}) => {
  await asPerson(COORDINATOR)
  await page.goto('/line')
  const [second] = await records<{ id: number; name: string }>(
    'select id, name from person where email = $1',
    [SECOND],
  )
  await formOf(page, 'Offer the line').locator('[name="to"]').selectOption(String(second!.id))
  await send(page, 'Offer the line', { words: 'The gate at the ward sticks' })

  const other = await browser.newContext(PLAIN)
  try {
    await signIn(other, SECOND)
    const next = await other.newPage()
    await next.goto('/line')
    await expect(next.locator('main')).toContainText('The gate at the ward sticks')
    await send(next, 'Accept the line', {})
    await expect(next.locator('h1')).toContainText('You hold the line')
  } finally {
    await other.close()
  }

  await page.goto('/line')
  await expect(page.locator('h1')).toContainText(second!.name)
  await page.locator('#take-over summary').click()
  await send(page, 'Take the line over', { reason: '' })
  await expect(page.locator('#take-over').getByRole('alert')).toBeVisible()
  await send(page, 'Take the line over', { reason: 'Joss drives and can not answer' })
  await expect(page.locator('h1')).toContainText('You hold the line')
})

test('somebody new comes in by a link that works once, and changes the password', async ({
  page,
  asPerson,
  browser,
}) => {
  const email = `nell.thrift.${Date.now()}@roostwright.example`
  await asPerson(ADMINISTRATOR)
  await page.goto('/setup/people/new')
  await page.locator('main [name="name"]').fill('Nell Thrift')
  await page.locator('main [name="email"]').fill(email)
  await page.locator('main [name="roles.0.role"]').selectOption('manager')
  await page.locator('main form.setup-form button').last().click()
  await expect(page).toHaveURL(/kept=added/)
  await page.getByRole('button', { name: 'Invite', exact: true }).click()
  const link = await page.locator('input[name="link"]').inputValue()

  const own = await browser.newContext(PLAIN)
  try {
    const nell = await own.newPage()
    await nell.goto(link)
    await expect(nell.locator('h1')).toHaveText('Welcome, Nell Thrift: choose a password')
    for (const refused of ['short', DEMO_PASSWORD]) {
      await send(nell, 'Set this password', { newPassword: refused })
      await expect(nell.getByRole('alert').first(), refused).toBeVisible()
    }
    await send(nell, 'Set this password', { newPassword: 'seven curlews over mud' })
    await expect(nell).not.toHaveURL(/password/)

    await nell.goto('/me')
    await send(nell, 'Change the password', {
      oldPassword: 'not mine',
      newPassword: 'eight curlews over mud',
    })
    await expect(nell.getByRole('alert').first()).toBeVisible()
    await send(nell, 'Change the password', {
      oldPassword: 'seven curlews over mud',
      newPassword: 'eight curlews over mud',
    })
    await expect(nell.getByRole('status').first()).toContainText('The new password holds')

    await nell.goto(link)
    await expect(nell.locator('main')).toContainText('used')
    await expect(nell.locator('input[name="newPassword"]')).toHaveCount(0)

    await own.clearCookies()
    await nell.goto('/sign-in')
    await send(nell, 'Sign in', { email, password: 'seven curlews over mud' })
    await expect(nell.getByRole('alert').first()).toBeVisible()
    await send(nell, 'Sign in', { email, password: 'eight curlews over mud' })
    await expect(nell).not.toHaveURL(/sign-in/)
  } finally {
    await own.close()
  }
})

/**
 * Journey 3, its morning: the holder of the line has fifty open things, offers the line and goes; the next person accepts
 * by keyboard alone, and everything that was owed is hers, line for line, on the screen and on paper. A line that nobody
 * holds alarms on every page and is taken without JavaScript.
 */
import { expect as atOnce, type Browser, type BrowserContext, type Page } from '@playwright/test'
import { HANDED_OVER, type Handover, makeHandover } from '#tests/support/handover.ts'
import { COORDINATOR, Keys, test } from '#tests/support/journey.ts'
import { signIn } from '#tests/support/session.ts'

const JOSS = 'joss.penhaddon@roostwright.example'
const EMRIK = 'emrik.tallowby@roostwright.example'
const sum = (counts: readonly number[]) => counts.reduce((total, count) => total + count, 0)
const THINGS = sum(Object.values(HANDED_OVER))
const KINDS = ['Calls', 'Call-backs', 'Asks without an answer', 'Animals on the road', 'Holds that run out']

/** Two browsers and a server share whatever machine this runs on. */
const expect = atOnce.configure({ timeout: 30_000 })

let handover: Handover | undefined

test.beforeEach(async () => {
  test.setTimeout(240_000)
  handover = await makeHandover(COORDINATOR)
})
test.afterEach(async () => {
  await handover?.end()
  handover = undefined
})

/** Each line of what passes: what it is, and the instant by which it is owed. */
async function owed(page: Page, whose: string | RegExp = /./, section = '#passes'): Promise<string[]> {
  const rows = page.locator(`${section} tbody tr`, { hasText: whose })
  return rows.evaluateAll(all =>
    all.map(row => `${row.querySelector('th a')?.textContent} ${row.querySelector('time')?.dateTime}`).sort(),
  )
}

/** What each head of what passes says, and how many lines stand under it. */
async function counts(page: Page): Promise<{ said: number[]; shown: number[] }> {
  const kinds = page.locator('#passes .line-kind')
  expect((await kinds.locator('h3').allTextContents()).map(text => text.replace(/\s*\d+$/, ''))).toEqual(
    KINDS,
  )
  return {
    said: (await kinds.locator('h3 .quiet').allTextContents()).map(Number),
    shown: await kinds.evaluateAll(all => all.map(one => one.querySelectorAll('tbody tr').length)),
  }
}

function isNamed(lines: readonly string[], name: string): boolean {
  return lines.some(line => line.startsWith(`${name} `))
}

async function focusOn(page: Page, keys: Keys, words: string): Promise<void> {
  const focused = () =>
    page.evaluate(() => document.activeElement?.textContent ?? document.activeElement?.getAttribute('name'))
  for (let tabs = 0; tabs < 40 && (await focused()) !== words; tabs++) await keys.press('Tab')
  expect(await focused()).toBe(words)
}

async function asAnother(browser: Browser, email: string, isPlain = false): Promise<BrowserContext> {
  const context = await browser.newContext({ javaScriptEnabled: !isPlain })
  await signIn(context, email)
  return context
}

test('fifty open things pass to the next person by keyboard, and none is missing', async ({
  page,
  browser,
  asPerson,
}) => {
  const { names } = handover!
  expect(names).toHaveLength(THINGS)
  await asPerson(COORDINATOR)
  await page.goto('/line')
  const before = await owed(page)
  expect(names.filter(name => !isNamed(before, name))).toEqual([])
  const { said, shown } = await counts(page)
  expect(said).toEqual(shown)
  expect(sum(shown)).toBe(before.length)
  const hers = await owed(page, 'Joss Penhaddon', '#stays')

  const holder = new Keys(page)
  await holder.press('Tab')
  await holder.press('Enter')
  await focusOn(page, holder, 'Hand over')
  await holder.press('Tab')
  await holder.type('Joss')
  await holder.press('Tab')
  await holder.type('The otter at Marl Cross is not in the list.')
  await holder.press('Tab')
  await holder.press('Enter')
  await expect(page.locator('main')).toContainText('Joss Penhaddon at')
  await expect(page.locator('h1')).toContainText('You hold the line until')

  const next = await asAnother(browser, JOSS)
  const joss = await next.newPage()
  await joss.goto('/due')
  const keys = new Keys(joss)
  await keys.press('Tab')
  await keys.press('Enter')
  await focusOn(joss, keys, 'The line is offered to you')
  await keys.press('Enter')
  await expect(joss).toHaveURL(/\/line$/)
  await expect(joss.locator('main')).toContainText('The otter at Marl Cross')
  expect(await owed(joss)).toEqual(before)
  await keys.press('Tab')
  await keys.press('Enter')
  await focusOn(joss, keys, 'Accept the line')
  await keys.press('Tab')
  await keys.press('Tab')
  await keys.press('Enter')
  await expect(joss.locator('h1')).toContainText('You hold the line until')
  // What she had promised herself stands among the rest now.
  const after = await owed(joss)
  expect(after).toEqual([...before, ...hers].sort())
  const now = await counts(joss)
  expect(now.said).toEqual(now.shown)
  expect(sum(now.shown)).toBe(after.length)
  console.log(
    `journey 3: ${before.length} lines passed, ${THINGS} of them made for it, none missing; ` +
      `${holder.pressed} keys beside typed words to offer, ${keys.pressed} to accept`,
  )

  // Whoever held it owes nothing of it any more, and is told who does.
  await page.goto('/line')
  await expect(page.locator('h1')).toContainText('Joss Penhaddon holds the line until')
  await page.goto('/due')
  for (const name of names) await expect(page.getByRole('link', { name, exact: true })).toHaveCount(0)
  await next.close()
})

test('on paper every thing has its line and its box, and nothing is a button', async ({ page, asPerson }) => {
  const { names } = handover!
  await asPerson(COORDINATOR)
  await page.goto('/line')
  await page.emulateMedia({ media: 'print' })
  for (const name of names) await expect(page.getByRole('link', { name, exact: true })).toBeVisible()
  const shown = await page.locator('#passes tbody tr').count()
  await expect(page.locator('#passes .line-box:visible')).toHaveCount(shown)
  await expect(page.locator(':is(button, .btn, summary, select, input, textarea, nav):visible')).toHaveCount(
    0,
  )
  await expect(page.getByText('Handed over by, to, at')).toBeVisible()
  const paper = (await page.pdf({ format: 'A4', preferCSSPageSize: true })).toString('latin1')
  const sheets = paper.match(/\/Type\s*\/Page\b/g)?.length ?? 0
  expect(sheets).toBeGreaterThan(0)
  console.log(`journey 3: ${shown} lines on ${sheets} printed pages`)
})

test('of two who accept the same offer one has the line, and the other reads who', async ({
  page,
  browser,
  asPerson,
}) => {
  await asPerson(COORDINATOR)
  await page.goto('/line')
  await page.getByRole('button', { name: 'Offer the line' }).click()
  await expect(page.locator('main')).toContainText('whoever comes next')
  const [first, second] = [await asAnother(browser, JOSS), await asAnother(browser, EMRIK)]
  const [joss, emrik] = [await first.newPage(), await second.newPage()]
  // The news would take the form away from under her hand: here it does not come.
  await emrik.route('**/api/events*', route => route.abort())
  const accept = (one: Page) => one.locator('#accept').getByRole('button', { name: 'Accept the line' })
  await joss.goto('/line')
  await emrik.goto('/line')
  await accept(joss).click()
  await expect(joss.locator('h1')).toContainText('You hold the line until')
  await accept(emrik).click()
  await expect(emrik.locator('#accept [role="alert"]')).toContainText('Joss Penhaddon')
  await emrik.goto('/line')
  await expect(emrik.locator('h1')).toContainText('Joss Penhaddon holds the line until')
  await Promise.all([first.close(), second.close()])
})

test('a line that nobody holds alarms on every page, and is taken without JavaScript', async ({
  browser,
  records,
}) => {
  await records(
    `update line_turn set until_at = greatest(taken_at + interval '1 millisecond', now()) where ended_at is null`,
  )
  const plain = await asAnother(browser, JOSS, true)
  const joss = await plain.newPage()
  for (const path of ['/calls', '/due', '/casualties', '/weeks']) {
    await joss.goto(path)
    await expect(joss.locator('#line-unheld')).toContainText(
      "Nobody holds the line: Marit Sollwyn's turn ended",
    )
  }
  await joss.locator('#line-unheld').getByRole('link').click()
  await expect(joss.locator('h1')).toContainText('Nobody holds the line')
  const form = joss.locator('#take-over')
  await form.getByRole('button', { name: 'Take the line over' }).click()
  await expect(form.getByRole('alert')).toBeVisible()
  await form.getByLabel('Why').fill('Her turn has ended')
  await form.getByRole('button', { name: 'Take the line over' }).click()
  await expect(joss.locator('h1')).toContainText('You hold the line until')
  await joss.goto('/calls')
  await expect(joss.locator('#line-unheld')).toHaveCount(0)
  await plain.close()
})

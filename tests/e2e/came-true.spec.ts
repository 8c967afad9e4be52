/** Whether forecasts came true, as people read it and ask for it; every button is posted without JavaScript. */
import { expect, type Page } from '@playwright/test'
import { COORDINATOR, MANAGER, test } from '#tests/support/journey.ts'
import { judgedRun } from '#tests/support/readable/judged-run.ts'

const PAGE = '/records/came-true'
const head = (page: Page) => page.getByRole('heading', { level: 1 })

test.afterEach(async ({ records }) => {
  await records('delete from backtest')
})

test.describe('a judging', () => {
  test.use({ javaScriptEnabled: false })

  test('is begun, is not begun twice, and is ended; what it judged stays', async ({
    page,
    context,
    asPerson,
    records,
  }) => {
    await records('delete from backtest')
    await asPerson(MANAGER)
    await page.goto(PAGE)
    await expect(head(page)).toHaveText('The forecasts have not been judged yet')
    const late = await context.newPage()
    await late.goto(PAGE)

    await page.getByRole('button', { name: 'Judge the forecasts' }).click()
    await expect(page.getByText(/^0 of \d+ days judged, since \d\d:\d\d$/)).toBeVisible()
    await late.getByRole('button', { name: 'Judge the forecasts' }).click()
    await expect(late.getByRole('status')).toContainText('The forecast is being judged already')

    const days = await judgedRun(records, { judged: 5, state: 'open' })
    await page.getByRole('link', { name: 'Look again' }).click()
    await expect(page.getByText(`5 of ${days} days judged, since`)).toBeVisible()
    await expect(page.getByText('The figures are of the days judged so far')).toBeVisible()
    await page.getByRole('button', { name: 'Cancel the judging' }).click()
    await expect(page.getByText(`after 5 of ${days} days; what was judged is kept`)).toBeVisible()
    await expect(page.locator('#figures tbody tr').first()).toContainText('1 day later')
    await late.getByRole('button', { name: 'Cancel the judging' }).click()
    await expect(late.getByRole('status')).toContainText('The forecast is not being judged any more')
  })

  test('is read by a coordinator, who can neither begin nor end one', async ({ page, asPerson, records }) => {
    await judgedRun(records, { judged: 5, state: 'open' })
    await asPerson(COORDINATOR)
    await page.goto('/weeks')
    await page.getByRole('link', { name: 'Were the forecasts right?' }).click()
    await expect(page).toHaveURL(PAGE)
    await expect(page.getByText(/^5 of \d+ days judged, since/)).toBeVisible()
    await expect(page.getByRole('button', { name: /judg/i })).toHaveCount(0)
  })
})

test('a right forecast is told with its range, a wrong one beside the guess that was nearer', async ({
  page,
  asPerson,
  records,
}) => {
  await asPerson(COORDINATOR)
  await judgedRun(records)
  await page.goto(PAGE)
  await expect(head(page)).toHaveText(
    /^28 days later, \d+\s% of what came lay in the middle where 80\s% should \(19 chances in 20: \d+ to \d+\s%\)$/,
  )
  await expect(page.locator('.basis')).toContainText(
    'The forecast was nearer than guessing the same as today',
  )
  await page.getByText('How the doubt was, and what is judged').click()
  await expect(page.locator('.scales svg')).toHaveCount(4)
  await expect(page.getByRole('row', { name: /^Last/ }).last()).toBeVisible()

  await judgedRun(records, { factor: 2 })
  await page.goto(PAGE)
  await expect(page.locator('.basis')).toContainText(/Guessing the same as today .*would have done better/)
})

test('the page of records says how far a learning is, and where one broke off', async ({
  page,
  asPerson,
  records,
}) => {
  const told = (minutesAgo: number) =>
    records(
      `insert into job_progress values ('learn', now() - interval '20 min', now() - make_interval(mins => $1), 120, 664)
       on conflict (job) do update set told_at = excluded.told_at`,
      [minutesAgo],
    )
  await asPerson(COORDINATOR)
  await told(1)
  await page.goto('/records')
  await expect(page.getByText('Learning from the records: 120 of 664 steps, since')).toBeVisible()
  await told(9)
  await page.reload()
  await expect(page.getByText(/^Learning stopped on .*, after 120 of 664 steps$/)).toBeVisible()
  await records(`delete from job_progress where job = 'learn'`)
  await page.reload()
  await expect(page.getByText('120 of 664 steps')).toHaveCount(0)
})

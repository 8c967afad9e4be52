/**
 * "Two more weeks": recorded on an animal's card by keyboard, refused with what was typed kept, seen in its dates at once,
 * taken back; and the same without JavaScript.
 */
import { expect, type Page } from '@playwright/test'
import { test, WARD_CARER } from '#tests/support/journey.ts'

/** Birds of the ward in a stage that nobody said they are ready to leave. */
const BIRDS = `
  select c.reference
    from casualty c join whereabouts w on w.casualty_id = c.id and w.until is null and w.enclosure_id is not null
    join centre n on n.id = w.centre_id and n.name = 'Withenholt Bird Ward'
    cross join lateral (select max(f.stage_no) as no from stage_fact f
      where f.casualty_id = c.id and f.kind = 'began' and not f.is_void) b
   where b.no is not null and not exists (
     select from stage_fact r where r.casualty_id = c.id and r.kind = 'ready' and r.stage_no = b.no)
   order by c.id`

const outOn = async (page: Page) =>
  /out about ([^.;]+)/.exec((await page.locator('#stay').textContent()) ?? '')?.[1] ?? 'no date'

test('by keyboard: the dates move with the word and come back without it', async ({
  page,
  asPerson,
  records,
}) => {
  test.setTimeout(120_000)
  const [bird] = await records<{ reference: string }>(BIRDS)
  await asPerson(WARD_CARER)
  await page.goto(`/casualties/${encodeURIComponent(bird!.reference)}`)
  const before = await outOn(page)
  const form = page.locator('#vet-says')
  await form.locator('summary').press('Enter')
  await form.getByLabel('About how long').fill('8')
  await page.keyboard.press('Tab')
  await page.keyboard.type('W')
  await expect(form.getByLabel('Days or weeks')).toHaveValue('weeks')
  await form.getByRole('button', { name: 'Record' }).press('Enter')

  // Nobody was named: it is asked for, and what was typed stays.
  await expect(form.getByLabel('Which vet')).toHaveAttribute('aria-invalid', 'true')
  await expect(form.getByLabel('Which vet')).toBeFocused()
  await expect(form.getByLabel('About how long')).toHaveValue('8')
  await expect(form.getByLabel('Days or weeks')).toHaveValue('weeks')
  await page.keyboard.type('Dr Thessaly')
  await page.keyboard.press('Enter')
  await expect(page).toHaveURL(/done=said/, { timeout: 30_000 })

  const stay = page.locator('#stay')
  await expect(stay).toContainText(
    /A vet thinks it needs about 56 more days here, until about .* by Dr Thessaly/,
  )
  await expect(stay).toContainText('The dates lean three quarters on that.')
  const after = await outOn(page)
  expect(after).not.toBe(before)
  await expect(page.locator('#happened')).toContainText('A vet says about 56 more days (Dr Thessaly)')

  await stay.getByRole('button', { name: 'Take it back' }).press('Enter')
  await expect(page).toHaveURL(/done=undone/, { timeout: 30_000 })
  await expect(stay).not.toContainText('A vet thinks')
  expect(await outOn(page)).toBe(before)
  await expect(page.locator('#happened')).toContainText('Taken back since')
})

test.describe('without JavaScript', () => {
  test.use({ javaScriptEnabled: false })

  test('it is recorded and taken back', async ({ page, asPerson, records }) => {
    const [, bird] = await records<{ reference: string }>(BIRDS)
    await asPerson(WARD_CARER)
    await page.setViewportSize({ width: 320, height: 720 })
    await page.goto(`/casualties/${encodeURIComponent(bird!.reference)}`)
    const form = page.locator('#vet-says')
    await form.locator('summary').click()
    await form.getByLabel('About how long').fill('0')
    await form.getByLabel('Which vet').fill('Dr Thessaly')
    await form.getByRole('button', { name: 'Record' }).click()
    await expect(form.getByLabel('About how long')).toHaveAttribute('aria-invalid', 'true')
    await expect(form.getByLabel('Which vet')).toHaveValue('Dr Thessaly')
    await form.getByLabel('About how long').fill('14')
    await form.getByRole('button', { name: 'Record' }).click()
    const stay = page.locator('#stay')
    await expect(stay).toContainText('about 14 more days here')
    const take = stay.getByRole('button', { name: 'Take it back' })
    expect((await take.boundingBox())?.height).toBeGreaterThanOrEqual(44)
    await take.click()
    await expect(stay).not.toContainText('A vet thinks')
  })
})

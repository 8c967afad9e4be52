/**
 * Two drivers carry an animal by link on a phone without JavaScript, the second hands it to the centre; on another
 * journey it dies on the way. At every instant exactly one keeper has it, and the death closes everything at once.
 */
import { type Browser, expect, type Page } from '@playwright/test'
import { COORDINATOR, test } from '#tests/support/journey.ts'

const PHONE = { javaScriptEnabled: false, viewport: { width: 390, height: 844 } }

type Found = { id: number; reference: string }

/** Animals in a place of the hospital that are not on the road. */
const IN_HOSPITAL = `
  select c.id, c.reference from whereabouts w join casualty c on c.id = w.casualty_id
   where w.until is null and w.enclosure_id is not null
     and w.centre_id = (select id from centre where name = 'Averbrook Wildlife Hospital')
     and not exists (select from journey_animal j where j.casualty_id = c.id and j.state = 'open')
     and not exists (select from claim k where k.casualty_id = c.id and k.kind = 'hold' and k.state = 'live')
     and exists (select from check_due d where d.casualty_id = c.id and d.done_at is null and d.called_off_at is null)
   order by c.is_disease_suspect, c.id desc limit 2`

/** Plans two legs to another centre and gives the links of both. */
async function planAndLink(page: Page, { reference }: Found): Promise<string[]> {
  await page.goto(`/moves/new?animal=${encodeURIComponent(reference)}`)
  await page.getByLabel('Goes to').selectOption({ label: 'Withenholt Bird Ward' })
  const legs = page.locator('fieldset.leg')
  const first = legs.nth(0)
  await first.getByLabel('Driver').selectOption({ index: 1 })
  await first.getByLabel('To', { exact: true }).fill('Lay-by at Stonehythe, under the lamp')
  const met = await first.getByLabel('There by').inputValue()
  const second = legs.nth(1)
  await second.getByLabel('Driver').selectOption({ index: 2 })
  await second.getByLabel('From').fill('Lay-by at Stonehythe, under the lamp')
  await second.getByLabel('To', { exact: true }).fill('Withenholt Bird Ward')
  await second.getByLabel('Picked up at').fill(met)
  await second.getByLabel('There by').fill(laterBy(met, 60))
  await page.getByRole('button', { name: 'Plan it' }).click()
  await expect(page.getByRole('status')).toContainText('It is planned')
  const links: string[] = []
  for (const at of [0, 1]) {
    await page.getByRole('button', { name: 'Make a link' }).nth(at).click()
    const made = page.getByLabel('The link').nth(at)
    await expect(made).toBeVisible()
    links.push(new URL(await made.inputValue()).pathname)
  }
  return links
}

function laterBy(local: string, minutes: number): string {
  return new Date(Date.parse(`${local}Z`) + minutes * 60_000).toISOString().slice(0, 16)
}

async function onPhone(browser: Browser, link: string): Promise<Page> {
  const context = await browser.newContext(PHONE)
  const page = await context.newPage()
  await page.goto(link)
  return page
}

test('two drivers carry it by link, and it is in one keeping at every instant', async ({
  page,
  browser,
  asPerson,
  records,
}) => {
  await asPerson(COORDINATOR)
  const [animal] = await records<Found>(IN_HOSPITAL)
  const since = new Date()
  const links = await planAndLink(page, animal!)
  const driver = await onPhone(browser, links[0]!)
  await expect(driver.getByRole('heading', { level: 1 })).toContainText('asks you to drive')
  await expect(driver.getByText('no phone in motion')).toBeVisible()
  const wide = await driver.evaluate(() => document.documentElement.scrollWidth - window.innerWidth)
  expect(wide).toBeLessThanOrEqual(0)
  await driver.getByRole('button', { name: 'I have it' }).click()
  await expect(driver.getByRole('heading', { level: 1 })).toContainText('You have it since')
  await driver.getByRole('button', { name: 'Delivered' }).click()
  await expect(driver.getByRole('heading', { level: 1 })).toContainText('Delivered')
  await expect(driver.locator('body')).not.toContainText(animal!.reference)
  const next = await onPhone(browser, links[1]!)
  await expect(next.getByRole('heading', { level: 1 })).toContainText('You have it since')
  await next.getByRole('button', { name: 'Delivered' }).click()
  await expect(next.getByRole('heading', { level: 1 })).toContainText('Delivered')

  const kept = await records<{ keeper: string; until: Date | null; since: Date }>(
    `select keeper, since, until from whereabouts where casualty_id = $1 and (until is null or until > $2) order by since`,
    [animal!.id, since],
  )
  expect(kept.map(({ keeper }) => keeper)).toEqual(['centre', 'driver', 'driver', 'centre'])
  for (const [at, one] of kept.entries()) expect(one.until).toEqual(kept[at + 1]?.since ?? null)
  const [after] = await records<{ open: number; live: number }>(
    `select (select count(*)::int from journey_animal where casualty_id = $1 and state = 'open') as open,
            (select count(*)::int from claim where casualty_id = $1 and kind = 'hold' and state = 'live') as live`,
    [animal!.id],
  )
  expect(after).toEqual({ open: 0, live: 0 })
})

test('one that dies on the road closes its legs, kept place, checks and links together', async ({
  page,
  browser,
  asPerson,
  records,
}) => {
  await asPerson(COORDINATOR)
  const [animal] = await records<Found>(IN_HOSPITAL)
  const links = await planAndLink(page, animal!)
  const driver = await onPhone(browser, links[0]!)
  await driver.getByRole('button', { name: 'I have it' }).click()
  await expect(driver.getByRole('heading', { level: 1 })).toContainText('You have it since')

  await page.goto(`/casualties/${encodeURIComponent(animal!.reference)}`)
  await page.locator('#outcome > summary').click()
  await page.locator('#outcome input[value="dead"]').check()
  await page.locator('#outcome input[value="died by itself"]').check()
  await page.locator('#outcome').locator('form button').last().click()
  await expect(page.getByRole('status')).toBeVisible()

  const [left] = await records<Record<string, number | string>>(
    `select (select count(*)::int from leg l join journey_animal a on a.journey_id = l.journey_id
              where a.casualty_id = $1 and l.state in ('planned', 'on the road')) as legs,
            (select count(*)::int from claim where casualty_id = $1 and state = 'live' and (kind = 'hold' or ends_at is null)) as places,
            (select count(*)::int from check_due where casualty_id = $1 and done_at is null and called_off_at is null) as checks,
            (select count(*)::int from one_time_link o join leg l on l.id = o.leg_id join journey_animal a on a.journey_id = l.journey_id
              where a.casualty_id = $1 and o.used_at is null and o.revoked_at is null) as links,
            (select string_agg(keeper, ' ') from whereabouts where casualty_id = $1 and until is null) as keeper`,
    [animal!.id],
  )
  expect(left).toEqual({ legs: 0, places: 0, checks: 0, links: 0, keeper: 'nobody' })
  await driver.reload()
  await expect(driver.getByRole('heading', { level: 1 })).toContainText('This drive is over')
})

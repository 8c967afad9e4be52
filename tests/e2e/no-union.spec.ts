/**
 * Journey 8: no union at the radiograph, three weeks more. One form; every promise that gives way is named; the old
 * plan stays readable with its numbers and their sources.
 */
import { expect, type Page } from '@playwright/test'
import { test, WARD_CARER } from '#tests/support/journey.ts'

type Bird = { id: number; reference: string; check: number; enclosure: number; median: number }

const BIRD = `
  select c.id, c.reference, d.id as check, w.enclosure_id as enclosure,
         (s.estimate -> 'ready' -> 'length' ->> 'medianDays')::float8 as median
    from check_due d join casualty c on c.id = d.casualty_id
    join whereabouts w on w.casualty_id = c.id and w.until is null join centre n on n.id = w.centre_id
    join casualty_stage s on s.stage_no = d.stage_no
     and s.casualty_plan_id = (select max(id) from casualty_plan where casualty_id = c.id)
   where n.name = 'Withenholt Bird Ward' and d.check_slug = 'radiograph' and d.required_for = 'next stage'
     and d.done_at is null and d.called_off_at is null and w.enclosure_id is not null and s.stage = 'restricted activity'
   order by c.id limit 1`

/** Another animal that was promised the bird's place from the day on which it was to leave. */
const PROMISED = `
  select plan_hold(o.id, $2, null, now() + interval '9 days', null, now() + interval '9 days', now() + interval '12 days',
                   false, 'The test of this journey', now()) as id, o.reference
    from casualty o join casualty b on b.id = $1 and b.company_slug = o.company_slug
    join whereabouts w on w.casualty_id = o.id and w.until is null and w.keeper <> 'nobody'
   where o.id <> $1 and not exists (select from claim h where h.casualty_id = o.id and h.kind = 'hold' and h.state = 'live')
   order by o.id limit 1`

async function isNarrow(page: Page): Promise<boolean> {
  return page.evaluate(() => document.documentElement.scrollWidth <= window.innerWidth)
}

test('three weeks more at the radiograph: one form, promises by name, the old plan beside the new', async ({
  page,
  asPerson,
  records,
}) => {
  test.setTimeout(120_000)
  const [bird] = await records<Bird>(BIRD)
  if (bird === undefined) throw new Error('no bird of the ward waits for its radiograph')
  const [entry] = await records<{ id: number }>(
    `insert into entry (entered_at, revision) select now(), max(revision) + 1 from entry returning id`,
  )
  await records(`select book_departure($1, $2, now() + interval '8 days', now())`, [entry?.id, bird.id])
  const [promise] = await records<{ id: number; reference: string }>(PROMISED, [bird.id, bird.enclosure])
  if (promise === undefined) throw new Error('nobody else may have its place')
  await records('update network set revision = (select max(revision) from entry)')

  await asPerson(WARD_CARER)
  await page.setViewportSize({ width: 390, height: 844 })
  await page.goto(`/casualties/${encodeURIComponent(bird.reference)}`)
  const form = page.locator(`#check-${bird.check}`)
  await form.locator('summary').click()
  await form.getByLabel('Bone not united: not passed').check()
  await form.getByLabel('how much longer').fill('21')
  await form.getByLabel('What was seen').fill('Callus soft')
  await form.getByRole('button', { name: 'Record' }).click()
  await expect(page).toHaveURL(/done=check/)

  const main = page.locator('main')
  await expect(main).toContainText('It stays longer: promises that gave way')
  await expect(main).toContainText(new RegExp(`${promise.reference} was to have .*: no longer kept`))
  await expect(main.getByRole('link', { name: promise.reference }).first()).toBeVisible()
  const plan = page.locator('#plan')
  const days = (count: number) => new RegExp(`usually ${Math.round(count * 2) / 2} days`)
  await expect(plan).toContainText(/Version 2, .*: Radiograph: bone not united, 21 days longer\. Callus soft/)
  await expect(plan).toContainText(days(bird.median + 21))
  await plan.getByText('Version 1, as it stood').click()
  await expect(plan).toContainText(days(bird.median))
  await expect(plan.locator('td small').first()).not.toBeEmpty()
  expect(await plan.locator('td small').count()).toBe(await plan.locator('td').count())
  expect(await isNarrow(page)).toBe(true)

  const [state] = await records<{ state: string; how: string; versions: number }>(
    `select c.state, x.how, (select count(*)::int from casualty_plan where casualty_id = $2) as versions
       from claim c join check_displaced x on x.claim_id = c.id where c.id = $1`,
    [promise.id, bird.id],
  )
  expect(state).toEqual({ state: 'broken', how: 'broken', versions: 2 })
})

/**
 * Journey 10: a releaser and a group of five. A pin bars one of them by name, four leave with place and ring, the days
 * that the fit have waited are told, and everything admitted still adds up.
 */
import { expect, type Page } from '@playwright/test'
import { HOSPITAL_CARER, test } from '#tests/support/journey.ts'

type Animal = { id: number; reference: string }

const FIVE = `
  select c.id, c.reference from whereabouts w join casualty c on c.id = w.casualty_id
    join centre n on n.id = w.centre_id join species s on s.slug = c.species_slug
   where w.until is null and n.name = 'Averbrook Wildlife Hospital' and w.enclosure_id is not null
     and exists (select from casualty_plan p where p.casualty_id = c.id)
     and not array_to_string(s.licence_keys, ' ') like '%no-release%'
     and not exists (select from species_season x where x.species_slug = s.slug)
   order by c.id desc limit 5`

/** Fit since ten days ago: every check passed or called off, the last stage begun and ready to leave. */
const FIT = [
  `update check_due set called_off_at = now() where casualty_id = any ($1) and done_at is null`,
  `update check_due set passed = true where casualty_id = any ($1) and done_at is not null`,
  `insert into stage_fact (entry_id, casualty_id, stage_no, kind, at)
     select (select min(id) from entry), p.casualty_id, max(s.stage_no), kind, now() - interval '10 days'
       from casualty_plan p join casualty_stage s on s.casualty_plan_id = p.id, (values ('began'), ('ready')) x (kind)
      where p.casualty_id = any ($1)
        and p.id = (select max(q.id) from casualty_plan q where q.casualty_id = p.casualty_id)
      group by p.casualty_id, kind`,
]

const waited = async (page: Page) =>
  Number(/([\d,]+) place-days/.exec((await page.locator('h1').textContent()) ?? '')?.[1])

test('a pin bars one of five by name; four leave with place and ring', async ({
  page,
  asPerson,
  records,
}) => {
  test.setTimeout(120_000)
  const animals = await records<Animal>(FIVE)
  expect(animals).toHaveLength(5)
  const ids = animals.map(({ id }) => id)
  for (const sql of FIT) await records(sql, [ids])
  const [pinned, ...four] = animals
  if (pinned === undefined) throw new Error('no five animals at the hospital')

  await asPerson(HOSPITAL_CARER)
  await page.goto(`/casualties/${encodeURIComponent(pinned.reference)}`)
  await page.locator('#operate summary').click()
  await page.getByLabel('What was done').fill('Ulna pinned')
  await page.getByLabel('Left', { exact: true }).check()
  await page.getByLabel('Pin', { exact: true }).check()
  await page.locator('#operate').getByRole('button', { name: 'Record' }).click()
  await expect(page).toHaveURL(/done=operated/)
  await expect(page.locator('main')).toContainText('Pin in place')

  await page.setViewportSize({ width: 390, height: 844 })
  await page.goto('/releases')
  expect(await waited(page)).toBeGreaterThanOrEqual(50)
  const form = page.locator('#plan form')
  for (const { reference } of animals) await form.getByLabel(new RegExp(`^${reference},`)).check()
  await form.getByRole('textbox', { name: 'Place' }).fill('Oak by the weir')
  await form.getByLabel('Who releases').fill('Odile Brackenray')
  await form.getByRole('button', { name: 'Plan a release' }).click()
  const refusal = form.getByRole('alert')
  await expect(refusal).toContainText(
    `${pinned.reference}: Pin is recorded in place, and no vet has signed that it stays`,
  )
  for (const { reference } of four) await expect(refusal).not.toContainText(reference)

  // Nothing typed is lost: one tick less is all it takes.
  await expect(form.getByRole('textbox', { name: 'Place' })).toHaveValue('Oak by the weir')
  await form.getByLabel(new RegExp(`^${pinned.reference},`)).uncheck()
  await form.getByRole('button', { name: 'Plan a release' }).click()
  await expect(page).toHaveURL(/done=planned/)

  const planned = page.locator('#planned .planned', { hasText: 'Oak by the weir' })
  await planned.getByText('Record the release').click()
  for (const [at] of four.entries()) {
    await planned.getByLabel('Ring or mark').nth(at).fill(`EV 1234${at}`)
  }
  await planned.getByRole('button', { name: 'Record', exact: true }).click()
  await expect(page).toHaveURL(/done=gone/)
  await expect(page.locator('#gone')).toContainText('Oak by the weir')
  await expect(page.locator('#gone')).toContainText('ring or mark EV 12343')
  await expect(page.locator('#fit')).toContainText(pinned.reference)
  const sums = await page.locator('#tally tbody tr td:nth-of-type(1)').allTextContents()
  const total = await page.locator('#tally tfoot td').nth(0).textContent()
  expect(sums.reduce((sum, text) => sum + Number(text), 0)).toBe(Number(total))
  const narrow = await page.evaluate(() => document.documentElement.scrollWidth <= window.innerWidth)
  expect(narrow).toBe(true)

  const [state] = await records<{ gone: number; flagged: number; here: number }>(
    `select count(*) filter (where k.outcome = 'released')::int as gone,
            count(*) filter (where exists (select from release_against x where x.keeping_id = k.id))::int as flagged,
            count(*) filter (where w.keeper = 'centre')::int as here
       from whereabouts w join keeping k on k.id = w.keeping_id
      where w.until is null and w.casualty_id = any ($1)`,
    [ids],
  )
  expect(state).toEqual({ gone: 4, flagged: 0, here: 1 })
})

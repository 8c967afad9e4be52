/**
 * With JavaScript off: a change of setup says whom it concerns before it is made, a table of places is checked before
 * it is taken in, and a room goes a step earlier in the round.
 */
import { expect } from '@playwright/test'
import { ADMINISTRATOR, test } from '#tests/support/journey.ts'

test.use({ javaScriptEnabled: false })

test('switching an occupied enclosure off names who is in, and is made once that is confirmed', async ({
  page,
  asPerson,
  records,
}) => {
  await asPerson(ADMINISTRATOR)
  const [found] = await records<{ id: number; reference: string }>(
    `select e.id, min(c.reference) as reference from claim k join enclosure e on e.id = k.enclosure_id join casualty c on c.id = k.casualty_id
      where k.kind = 'stay' and k.state = 'live' and k.ends_at is null and e.is_active
      group by e.id having count(*) = 1 order by e.id limit 1`,
  )
  const { id, reference } = found!
  await page.goto(`/setup/enclosures/${id}`)
  await page.getByRole('button', { name: 'Switch off' }).click()
  const said = page.getByRole('alert').filter({ hasText: 'proper place' })
  await expect(said).toContainText(`${reference}, in`)
  const [still] = await records<{ on: boolean }>('select is_active as on from enclosure where id = $1', [id])
  expect(still!.on).toBe(true)
  await said.getByRole('button', { name: 'Make the change all the same' }).click()
  await expect(page.locator('h1')).toContainText('switched off')
  await page.getByRole('button', { name: 'Switch on again' }).click()
  await expect(page.locator('h1')).not.toContainText('switched off')
  const short = await records(
    'select 1 from short s join casualty c on c.id = s.casualty_id where c.reference = $1 and s.ends_at is null',
    [reference],
  )
  expect(short).toEqual([])
})

test('a chosen file of places is checked by line, kept, and its good rows are taken in', async ({
  page,
  asPerson,
  records,
}) => {
  await asPerson(ADMINISTRATOR)
  await page.goto('/setup/places/import')
  const buffer = Buffer.from(
    'name,kind,also called,latitude,longitude\nTest quay,road,,54,-3\nx,hill,,54,-3\n',
  )
  await page.locator('input[type="file"]').setInputFiles({ name: 'places.csv', mimeType: 'text/csv', buffer })
  await page.getByRole('button', { name: 'Check the table' }).click()
  await expect(page.getByRole('alert')).toContainText('1 new')
  await expect(page.getByRole('alert')).toContainText('Line 3, kind: One of the choices')
  await expect(page.locator('textarea[name="csv"]')).toHaveValue(/Test quay/)
  await page.getByRole('button', { name: 'Take in the good rows' }).click()
  await expect(page).toHaveURL(/\/setup\/places\?kept=imported/)
  expect(await records("delete from gazetteer_place where name = 'Test quay' returning id")).toHaveLength(1)
})

test('a room goes a step later in the round, and back', async ({ page, asPerson, records }) => {
  await asPerson(ADMINISTRATOR)
  const [centre] = await records<{ id: number }>(
    'select centre_id as id from room group by 1 order by count(*) desc limit 1',
  )
  await page.goto(`/setup/walk/${centre!.id}`)
  const rooms = page.locator('#rooms ol.walk li > span')
  const before = await rooms.allTextContents()
  await page
    .locator('#rooms')
    .getByRole('button', { name: `${before[0]} later` })
    .click()
  await expect(rooms).toHaveText([before[1]!, before[0]!, ...before.slice(2)])
  await page
    .locator('#rooms')
    .getByRole('button', { name: `${before[0]} earlier` })
    .click()
  await expect(rooms).toHaveText(before)
})

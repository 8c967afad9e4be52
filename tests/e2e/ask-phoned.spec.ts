/**
 * A centre beyond its standing offer is asked at once, and says yes on the phone: from the ranked options to the answer
 * written down, the place kept, the finder's call promised.
 */
import { expect as atOnce } from '@playwright/test'
import { COORDINATOR, test } from '#tests/support/journey.ts'

const expect = atOnce.configure({ timeout: 30_000 })

/** Averbrook has somebody at its door all night and offers no place for herons: it can be asked at every hour. */
const ANIMAL = 'grey heron'

test('an ask goes out from the options, and the phoned yes is written down', async ({
  page,
  asPerson,
  records,
}) => {
  test.setTimeout(180_000)
  await asPerson(COORDINATOR)
  await page.goto('/calls')
  await page.getByRole('button', { name: 'Take a call' }).click()
  await page.locator('input[name="animalTyped"]').fill(ANIMAL)
  await page.locator('input[name="whereTyped"]').fill('Heskwith lane')
  await page.locator('input[name="wrongTyped"]').fill('broken wing')
  await page.locator('input[name="wrongTyped"]').press('Enter')
  const asked = page.locator('.option', { has: page.locator('button[name="ask"]') }).first()
  await expect(asked).toBeVisible()
  const centre = (await asked.locator('h3').textContent()) ?? ''
  await asked.getByRole('button', { name: 'Ask now, answer to come' }).click()
  const reference = page.locator('.ref')
  await expect(reference).toHaveText(/^[A-Z][a-z]+ \d{2,3}$/)
  const name = (await reference.textContent()) ?? ''
  const [ask] = await records<{ id: number; to: string; state: string; call: number }>(
    `select a.id, ce.name as to, a.state, a.call_id as call from ask a join casualty c on c.id = a.casualty_id
       join centre ce on ce.id = a.centre_id where c.reference = $1`,
    [name],
  )
  expect(centre).toContain(ask!.to)
  expect(ask!.state).toBe('put')

  await page.goto('/calls')
  await page.locator('#asks tr', { hasText: name }).getByRole('link', { name: ask!.to, exact: true }).click()
  await expect(page.locator('h1')).toHaveText(`Ring ${ask!.to} for an answer`)
  await expect(page.locator('.ask-number a[href^="tel:"]')).toBeVisible()
  const form = page.locator('#answer')
  await form.locator('summary').click()
  await form.getByRole('button', { name: 'Write it down' }).click()
  await expect(form.getByRole('alert')).toBeVisible()
  await form.getByText('Said yes').click()
  await form.getByLabel('Who answered').fill('Ada Fenwick')
  await form.getByRole('button', { name: 'Write it down' }).click()
  await expect(page.locator('h1')).toHaveText(`${ask!.to} said yes`)
  await expect(page.locator('main')).toContainText('agreed, Ada Fenwick')
  const [after] = await records<{ state: string; by: string; holds: number; calls: number }>(
    `select a.state, a.answered_by_words as by,
            (select count(*)::int from claim k join enclosure e on e.id = k.enclosure_id
              where k.casualty_id = a.casualty_id and k.kind = 'hold' and k.state = 'live' and e.centre_id = a.centre_id) as holds,
            (select count(*)::int from call_back b where b.call_id = a.call_id and b.done_at is null) as calls
       from ask a where a.id = $1`,
    [ask!.id],
  )
  expect(after).toEqual({ state: 'yes', by: 'Ada Fenwick', holds: 1, calls: 1 })
})

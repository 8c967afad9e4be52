/**
 * What falls due while a page is open stands there as due without a reload, and without JavaScript at the next loading:
 * a departure whose hour has come, an animal expected, a promised call-back, the end of a turn on the line.
 */
import { expect as atOnce, type Page } from '@playwright/test'
import { COORDINATOR, HOSPITAL_CARER, test } from '#tests/support/journey.ts'
import type { Records } from '#tests/support/readable/pages.ts'
import { signIn } from '#tests/support/session.ts'

/** A beat of the timers is five seconds; the machine may be busy. */
const expect = atOnce.configure({ timeout: 30_000 })
const after = (minutes: number, from: Date) => new Date(from.getTime() + minutes * 60_000)

test.beforeEach(() => test.setTimeout(180_000))

/** Opens a page and waits until it follows what changes; the mark is gone after a reload. */
async function following(page: Page, path: string): Promise<void> {
  const stream = page.waitForResponse(answer => answer.url().includes('/api/events'))
  await page.goto(path)
  await stream
  await page.evaluate(() => document.documentElement.setAttribute('data-same', 'yes'))
}

async function isSame(page: Page): Promise<boolean> {
  return (await page.locator('html').getAttribute('data-same')) === 'yes'
}

/** A test before this one may have told of hours that are ahead again: the next beat begins anew. */
async function toldUntil(records: Records, at: Date): Promise<void> {
  await expect
    .poll(async () =>
      (await records<{ until: Date }>('select told_until as until from due_told'))[0]?.until.getTime(),
    )
    .toBeLessThanOrEqual(at.getTime() + 60_000)
}

test('a departure whose hour comes is due where it is owed', async ({
  page,
  browser,
  asPerson,
  setClock,
  records,
}) => {
  const begin = new Date()
  await setClock(begin)
  await toldUntil(records, begin)
  const [animal] = await records<{ id: number; reference: string }>(
    `select c.id, c.reference from whereabouts w join casualty c on c.id = w.casualty_id join centre n on n.id = w.centre_id
      where w.until is null and w.enclosure_id is not null and n.name = 'Averbrook Wildlife Hospital'
        and not exists (select from departure d where d.casualty_id = c.id) order by c.id limit 1`,
  )
  const { id, reference } = animal!
  await records(
    `with e as (insert into entry (entered_at) values ($2) returning id)
     select book_departure(e.id, $1, $3, $2), close_entry(e.id) from e`,
    [id, begin, after(60, begin)],
  )
  await asPerson(HOSPITAL_CARER)
  await following(page, '/due')
  const line = (one: Page) =>
    one.locator('#carer tbody tr', { hasText: `${reference}, ` }).filter({
      hasText: 'booked to leave',
    })
  await expect(line(page)).toContainText('in 60 min')
  const from = performance.now()
  await setClock(after(61, begin))
  await expect(line(page)).toContainText('1 min ago')
  console.log(`falls due: in sight ${((performance.now() - from) / 1000).toFixed(1)} s after its hour`)
  expect(await isSame(page)).toBe(true)

  const plain = await browser.newContext({ javaScriptEnabled: false })
  await signIn(plain, HOSPITAL_CARER)
  const unscripted = await plain.newPage()
  await unscripted.goto('/due')
  await expect(line(unscripted)).toContainText('1 min ago')
  await plain.close()
  await records(`update departure set state = 'called-off' where casualty_id = $1`, [id])
})

test('a promised call-back comes due on every page of the desk, and a turn that ends alarms', async ({
  page,
  context,
  asPerson,
  setClock,
  records,
}) => {
  const begin = new Date()
  await setClock(begin)
  await toldUntil(records, begin)
  const [call] = await records<{ id: number }>(
    `with c as (insert into call (opened_at, opened_by, state, parked_at, facts)
       select $1, id, 'parked', $1, '{"animalTyped": "Promised owl", "whereTyped": "Bay 1"}' from person where email = $3 returning id, opened_by)
     insert into call_back (call_id, due_at, owner_id, what) select id, $2, opened_by, 'Is the owl in its box' from c
     returning call_id as id`,
    [begin, after(60, begin), COORDINATOR],
  )
  const [turn] = await records<{ until: Date }>(
    `select until_at as until from line_turn where ended_at is null`,
  )
  await records('update line_turn set until_at = $1 where ended_at is null', [after(60, begin)])
  await asPerson(COORDINATOR)
  const [line, round] = [await context.newPage(), await context.newPage()]
  const promised = (one: Page) => one.locator('main tr', { hasText: 'Is the owl in its box' }).first()
  // Only the page in sight follows, so each is brought to the front before its hour comes.
  await following(page, '/due')
  await following(line, '/line')
  await following(round, '/round')
  await expect(promised(page)).toContainText('in 60 min')
  await expect(promised(line)).toContainText('in 60 min')
  await expect(round.locator('#line-unheld')).toHaveCount(0)
  await setClock(after(61, begin))
  await expect(promised(page)).toContainText('1 min ago')
  await expect(promised(line)).toContainText('1 min ago')
  await expect(round.locator('#line-unheld')).toBeVisible()
  for (const one of [page, line, round]) expect(await isSame(one)).toBe(true)
  await records('update call_back set done_at = now() where call_id = $1', [call!.id])
  await records(`update call set state = 'closed', closed_at = now(), parked_at = null where id = $1`, [
    call!.id,
  ])
  await records('update line_turn set until_at = $1 where ended_at is null', [turn!.until])
})

/**
 * Journey 7: a carer, 20 animals, gloves, no signal. The round opens from what was last loaded; each animal is two taps
 * beside a typed weight; after reconnecting there are exactly 20 entries, each with the time it happened. Then the same
 * with every first answer lost on the way, which without the entry's key would double all of them.
 */
import { expect, type Page } from '@playwright/test'
import { HOSPITAL_CARER, test, WARD_CARER } from '#tests/support/journey.ts'

const ANIMALS = 20
/** No animal of the demonstration weighs this. */
const GRAMS = 123_450

test.setTimeout(300_000)

/** The centre of the carer who signs in. */
const COUNTED_AT = `select counted_at as at from centre where name = 'Averbrook Wildlife Hospital'`

async function openKept(page: Page): Promise<string> {
  await page.goto('/round')
  await page.getByRole('link', { name: 'As a list, to record' }).click()
  await expect(page.locator('.walk-line.opens').first()).toBeVisible()
  // The page is kept once the worker has it in its own store.
  await expect.poll(() => isKept(page)).toBe(true)
  return page.url()
}

const isKept = (page: Page) =>
  page.evaluate(
    async () => (await caches.match(`${location.pathname}?as=list`, { ignoreVary: true })) !== undefined,
  )

/** Weighs the animals one after the other; returns the taps an entry took. */
async function weigh(page: Page, count: number, grams: (n: number) => number): Promise<number> {
  let taps = 0
  for (let n = 0; n < count; n++) {
    await page.locator('.walk-line.opens').nth(n).click()
    const panel = page.locator('.taps-of-line')
    await panel.locator('[name="grams"]').fill(String(grams(n)))
    await panel.getByRole('button', { name: 'Save weight' }).click()
    await expect(panel).toHaveCount(0)
    taps += 2
  }
  return taps / count
}

const kept = (page: Page) =>
  page.evaluate(
    () =>
      new Promise<number>((done, fail) => {
        const open = indexedDB.open('roostwright-round')
        open.onerror = () => fail(open.error)
        open.onsuccess = () => {
          const count = open.result.transaction('taps').objectStore('taps').count()
          count.onsuccess = () => {
            done(count.result)
            open.result.close()
          }
        }
      }),
  )

const leftOn = (page: Page) =>
  page.evaluate(async () => [
    ...(await caches.keys()),
    ...(await indexedDB.databases()).map(({ name }) => name ?? ''),
  ])

test('no signal: the round opens, 20 entries wait and arrive once, with their times', async ({
  page,
  context,
  asPerson,
  records,
}) => {
  await asPerson(HOSPITAL_CARER)
  const list = await openKept(page)
  await context.setOffline(true)
  await page.goto(list)
  await expect(page.locator('.walk-line.opens').first()).toBeVisible()
  const began = Date.now()
  const taps = await weigh(page, ANIMALS, n => GRAMS + n)
  await expect(page.locator('.tap-bar')).toContainText(`${ANIMALS} entries wait on this phone`)
  expect(await kept(page)).toBe(ANIMALS)
  // The phone goes to sleep and comes back before there is signal.
  await page.goto(list)
  await expect(page.locator('.tap-bar')).toContainText(`${ANIMALS} entries wait on this phone`)
  const ended = Date.now()

  await context.setOffline(false)
  await expect.poll(() => kept(page), { timeout: 120_000 }).toBe(0)
  const weights = await records<{ grams: number; at: Date; entered: Date }>(
    `select grams, at, e.entered_at as entered from weight w join entry e on e.id = w.entry_id
      where grams between $1 and $2 order by grams`,
    [GRAMS, GRAMS + ANIMALS],
  )
  const lost = ANIMALS - new Set(weights.map(({ grams }) => grams)).size
  const doubled = weights.length - new Set(weights.map(({ grams }) => grams)).size
  console.log(`round without signal: ${ANIMALS} entries, taps each ${taps}, lost ${lost}, doubled ${doubled}`)
  expect({ taps, lost, doubled }).toEqual({ taps: 2, lost: 0, doubled: 0 })
  for (const { at, entered } of weights) {
    expect(at.getTime()).toBeGreaterThanOrEqual(began - 5000)
    expect(at.getTime()).toBeLessThanOrEqual(ended + 5000)
    expect(at.getTime()).toBeLessThan(entered.getTime())
  }
})

test('every first answer lost: sent again, recorded once', async ({ page, asPerson, records }) => {
  await asPerson(HOSPITAL_CARER)
  await openKept(page)
  const heard = new Set<string>()
  let sent = 0
  await page.route('**/api/round', async route => {
    sent++
    const key = new URLSearchParams(route.request().postData() ?? '').get('key') ?? ''
    const answer = await route.fetch()
    if (heard.has(key)) return route.fulfill({ response: answer })
    heard.add(key)
    return route.abort()
  })
  await weigh(page, 5, n => GRAMS + 100 + n)
  await expect.poll(() => kept(page), { timeout: 120_000 }).toBe(0)
  const [{ n } = { n: 0 }] = await records<{ n: number }>(
    'select count(*)::int as n from weight where grams between $1 and $2',
    [GRAMS + 100, GRAMS + 104],
  )
  console.log(`round with lost answers: sent ${sent}, recorded ${n}`)
  expect(sent).toBeGreaterThanOrEqual(10)
  expect(n).toBe(5)
})

test('a tap is taken back in ten seconds, and signing out leaves nothing on the phone', async ({
  page,
  asPerson,
  records,
}) => {
  await asPerson(HOSPITAL_CARER)
  await openKept(page)
  await weigh(page, 1, () => GRAMS + 200)
  await page.getByRole('button', { name: 'Take it back' }).click()
  const standing = async () =>
    (
      await records<{ n: number }>(
        `select count(*)::int as n from weight x where grams = $1 and not is_void
           and not exists (select from weight v where v.supersedes = x.id and v.is_void)`,
        [GRAMS + 200],
      )
    )[0]?.n
  await expect.poll(() => kept(page), { timeout: 60_000 }).toBe(0)
  await expect.poll(standing, { timeout: 60_000 }).toBe(0)

  await page.goto('/round')
  const counted = async () => (await records<{ at: Date | null }>(COUNTED_AT))[0]?.at?.getTime()
  const before = await counted()
  await page.getByRole('button', { name: 'As shown' }).focus()
  await page.keyboard.press('Enter')
  await expect.poll(counted, { timeout: 60_000 }).not.toBe(before)
  // It names the keys once the page listens to them, whichever way the tap was sent.
  await expect(page.getByRole('button', { name: 'Take it back' }).locator('kbd')).toHaveText('Ctrl Z')
  await page.keyboard.press('Control+z')
  await expect.poll(counted, { timeout: 60_000 }).toBe(before)
  await page.getByRole('button', { name: 'Sign out' }).click()
  await expect(page).not.toHaveURL(/round/)
  await expect.poll(() => leftOn(page)).toEqual([])
})

test('whoever is switched off has nothing left on her phone', async ({ page, asPerson, records }) => {
  await asPerson(WARD_CARER)
  await openKept(page)
  expect(await leftOn(page)).not.toEqual([])
  const switched = (is: boolean) =>
    records('update person set is_active = $1 where email = $2', [is, WARD_CARER])
  await switched(false)
  try {
    await page.evaluate(() => window.dispatchEvent(new Event('focus')))
    await expect(page).toHaveURL(/sign-in/)
    await expect.poll(() => leftOn(page)).toEqual([])
  } finally {
    await switched(true)
  }
})

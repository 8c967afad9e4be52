/**
 * What a phone is asked to carry: the JavaScript of the pages that are opened outdoors, the first ranked answer on a slow
 * line and a slow processor, and the round as hands in gloves need it. The weight is a bar; the time is told.
 */
import { AxeBuilder } from '@axe-core/playwright'
import { type CDPSession, expect, type Page } from '@playwright/test'
import { newToken } from '#lib/service/link.ts'
import { COORDINATOR, HOSPITAL_CARER, test } from '#tests/support/journey.ts'

test.use({ viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true })
test.setTimeout(180_000)

/** What is wanted of a page altogether; the framework's own scripts, which every page carries, weigh more by themselves. */
const WANTED_KB = 120
/** What a page may add to those: wanted of us, no source. */
const OWN_BAR_KB = 30
const TIMES = 3
const SLOW_PROCESSOR = 4
const SLOW_LINE = {
  offline: false,
  latency: 150,
  downloadThroughput: 1_600_000 / 8,
  uploadThroughput: 1_600_000 / 8,
}
const TARGET_PX = 60
const TEXT_PX = 18

async function cold(page: Page): Promise<CDPSession> {
  const session = await page.context().newCDPSession(page)
  await session.send('Network.enable')
  await session.send('Network.setCacheDisabled', { cacheDisabled: true })
  await session.send('Network.setBypassServiceWorker', { bypass: true })
  return session
}

/** Compressed bytes of every script that opening a page fetches, in kB. */
async function scriptsOf(page: Page, path: string): Promise<number> {
  const session = await cold(page)
  const scripts = new Set<string>()
  let bytes = 0
  session.on('Network.responseReceived', ({ requestId, type }) => {
    if (type === 'Script') scripts.add(requestId)
  })
  session.on('Network.loadingFinished', ({ requestId, encodedDataLength }) => {
    if (scripts.has(requestId)) bytes += encodedDataLength
  })
  await page.goto(path, { waitUntil: 'load' })
  await page.waitForFunction(() => document.readyState === 'complete')
  await session.detach()
  return bytes / 1000
}

async function waitingCall(
  records: <T extends Record<string, unknown>>(sql: string) => Promise<T[]>,
): Promise<number> {
  const [call] = await records<{ id: number }>(
    `insert into call (opened_at, state, facts) select now(), 'open', facts from call
      where facts ->> 'species' is not null order by id limit 1 returning id`,
  )
  return call!.id
}

test('calls, round and the link of a vet stay within the weight of a phone', async ({
  page,
  asPerson,
  records,
}) => {
  const { token, tokenHash } = newToken()
  await records(
    `insert into one_time_link (token_hash, purpose, ask_id, made_at, expires_at)
     select $1, 'ask', min(id), now(), now() + interval '1 day' from ask where referral_id is not null`,
    [tokenHash],
  )
  const weights: [string, number][] = [["a vet's link", await scriptsOf(page, `/answer/${token}`)]]
  await asPerson(COORDINATOR)
  const call = await waitingCall(records)
  weights.push(['calls', await scriptsOf(page, '/calls')])
  weights.push(['a call with its answer', await scriptsOf(page, `/calls/${call}`)])
  await asPerson(HOSPITAL_CARER)
  await page.goto('/round')
  const { pathname } = new URL(page.url())
  weights.push(['the round', await scriptsOf(page, pathname)])
  weights.push(['the round as a list', await scriptsOf(page, `${pathname}?as=list`)])
  expect(weights.every(([, kb]) => kb > 0)).toBe(true)
  const bare = await scriptsOf(page, '/nothing-is-here')
  for (const [name, kb] of weights)
    console.log(
      `${name.padEnd(24)}${kb.toFixed(1)} kB of scripts, ${(kb - bare).toFixed(1)} ours; wanted ${WANTED_KB}`,
    )
  await records('delete from call where id = $1', [call])
  await records('delete from one_time_link where token_hash = $1', [tokenHash])
  expect(weights.filter(([, kb]) => kb - bare > OWN_BAR_KB)).toEqual([])
})

test('how soon the first ranked answer stands on a slow phone', async ({ page, asPerson, records }) => {
  await asPerson(COORDINATOR)
  const call = await waitingCall(records)
  const session = await cold(page)
  await session.send('Network.emulateNetworkConditions', SLOW_LINE)
  await session.send('Emulation.setCPUThrottlingRate', { rate: SLOW_PROCESSOR })
  // Asked in the page itself, by the frame: a question from outside waits behind the scripts.
  await page.addInitScript(() => {
    const look = () => {
      const option = document.querySelector('.option')
      if (option && option.getBoundingClientRect().height > 0) performance.mark('ranked')
      else requestAnimationFrame(look)
    }
    requestAnimationFrame(look)
  })
  const times: number[] = []
  for (let n = 0; n < TIMES; n++) {
    await page.goto(`/calls/${call}`)
    await page.waitForFunction(() => performance.getEntriesByName('ranked').length > 0)
    times.push(await page.evaluate(() => performance.getEntriesByName('ranked')[0]!.startTime))
  }
  console.log(`first ranked answer: ${times.map(ms => (ms / 1000).toFixed(1)).join(', ')} s, wanted within 3`)
  await records('delete from call where id = $1', [call])
})

test('the round is made for gloves: tall targets, large text, strong contrast', async ({
  page,
  asPerson,
}) => {
  await asPerson(HOSPITAL_CARER)
  await page.goto('/round')
  await page.getByRole('link', { name: 'As a list, to record' }).click()
  await page.locator('.walk-line.opens').first().click()
  await expect(page.locator('.taps-of-line')).toBeVisible()
  const low = await page
    .locator(
      'main button:visible, main .walk-line.opens:visible, main input:visible:not([type=checkbox]):not([type=radio])',
    )
    .evaluateAll(
      (all, least) =>
        all
          .map(one => ({
            what: one.textContent?.trim().slice(0, 30) || one.getAttribute('name'),
            height: Math.round(one.getBoundingClientRect().height),
            text: Number.parseFloat(getComputedStyle(one).fontSize),
          }))
          .filter(({ height, text }) => height < least.target || text < least.text),
      { target: TARGET_PX, text: TEXT_PX },
    )
  expect(low).toEqual([])
  for (const colorScheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme, reducedMotion: 'reduce' })
    const { violations } = await new AxeBuilder({ page })
      .options({ runOnly: { type: 'rule', values: ['color-contrast-enhanced'] } })
      .include('main')
      .setLegacyMode()
      .analyze()
    const faint = violations.flatMap(({ nodes }) =>
      nodes.map(({ target, any }) => `${target.join(' ')} ${any[0]?.message}`),
    )
    expect(faint.slice(0, 5), colorScheme).toEqual([])
  }
})

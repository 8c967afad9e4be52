/**
 * Every kind of page as somebody reads it: by the rules of WCAG 2.2 AA (axe) in light and dark, on a wide screen and on a
 * phone, down to the 320 px of WCAG 1.4.10; from one origin, under a policy that runs no script without its nonce.
 */
import { expect } from '@playwright/test'
import { COORDINATOR, test } from '#tests/support/journey.ts'
import { judge, sideways, skipFaults, type Tally, unfold } from '#tests/support/readable/judge.ts'
import { endCalls, KINDS, lastCall } from '#tests/support/readable/pages.ts'
import { policyFaults, watch } from '#tests/support/readable/watch.ts'
import { surroundings } from '#tests/support/session.ts'

// What a trace keeps of a run of axe takes longer than the run, and a fault's line says where it is.
test.use({ trace: 'off' })

const NARROWEST = { width: 320, height: 640 }

const PLANTED = `<script>document.documentElement.dataset.planted = 'by a script'</script>
  <img alt="" src="/nowhere.png" onerror="document.documentElement.dataset.planted = 'by a handler'">
  <img alt="" src="https://elsewhere.example/x.png">`

const origin = new URL(surroundings('NEXTAUTH_URL')).origin
const tally: Tally = { runs: 0, passed: 0, undecided: 0, findings: 0 }
let widths = ''
let since = 0

test.beforeEach(async ({ records }) => {
  since = await lastCall(records)
})
test.afterEach(async ({ records }) => {
  await endCalls(records, since)
})
test.afterAll(() => {
  if (tally.runs === 0) return
  console.log(
    `readable at ${widths}: ${tally.runs} runs of axe, ${tally.passed} rules kept, ${tally.findings} broken, ` +
      `${tally.undecided} elements left to people`,
  )
})

for (const kind of KINDS) {
  test(`${kind.name} @phone`, async ({ page, records, asPerson, isMobile }) => {
    if (kind.who !== undefined) await asPerson(kind.who)
    const seen = watch(page, origin)
    const answer = await page.goto(await kind.at(records))
    expect(answer?.status()).toBe(kind.status ?? 200)
    await kind.leadTo?.(page)
    await expect(page.locator(kind.shows).first()).toBeAttached()
    expect(await page.locator(kind.shows).count()).toBeGreaterThanOrEqual(kind.atLeast ?? 1)

    const faults = [...(await policyFaults(answer)), ...(await sideways(page)), ...(await skipFaults(page))]
    await unfold(page)
    faults.push(...(await judge(page, tally)), ...(await sideways(page)))
    widths = `${page.viewportSize()?.width} px`
    if (isMobile) {
      await page.setViewportSize(NARROWEST)
      widths += ` (and ${NARROWEST.width})`
      faults.push(...(await sideways(page)))
    }
    expect([...faults, ...seen.outside, ...seen.refused]).toEqual([])
    expect(seen.asked).toBeGreaterThan(1)
  })
}

for (const { name, path, who } of [
  { name: 'a public page', path: '/sign-in' },
  { name: 'a page that is printed', path: '/line', who: COORDINATOR },
  { name: 'a page that is not there', path: '/nowhere', who: COORDINATOR },
]) {
  test(`the first two keys lead past the head of ${name}`, async ({ page, asPerson }) => {
    if (who !== undefined) await asPerson(who)
    await page.goto(path)
    await page.keyboard.press('Tab')
    await expect(page.getByRole('link', { name: 'Skip to the content' })).toBeInViewport()
    await page.keyboard.press('Enter')
    await expect(page.locator('main')).toBeFocused()
    await page.keyboard.press('Tab')
    expect(await page.evaluate(() => document.activeElement?.closest('main') !== null)).toBe(true)
  })
}

test('what is planted on a page is found', async ({ page }) => {
  await page.goto('/sign-in')
  await page.locator('main').evaluate(main => {
    main.insertAdjacentHTML(
      'beforeend',
      `<img src="data:image/gif;base64,R0lGODlhAQABAAAAACw=">
       <p class="planted" style="color: color-mix(in srgb, var(--ink) 35%, var(--paper))">Hard to read</p>
       <details><summary>More</summary><h6>Out of order</h6><input name="nameless"></details>
       <button style="width: 9px; height: 9px; padding: 0; min-height: 0">x</button><button style="width: 9px; height: 9px; padding: 0; min-height: 0">y</button>`,
    )
  })
  expect(await sideways(page)).toEqual([])
  await unfold(page)
  const found = (await judge(page, { runs: 0, passed: 0, undecided: 0, findings: 0 })).map(line =>
    line.replace(/:.*/s, ''),
  )
  expect(found.sort()).toEqual([
    'dark, color-contrast',
    'light, color-contrast',
    'light, heading-order',
    'light, image-alt',
    'light, label',
    'light, target-size',
  ])

  await page.locator('.planted').evaluate(one => one.setAttribute('style', 'width: 2000px'))
  expect(await sideways(page)).toEqual([expect.stringContaining('p.planted')])
})

test('the policy stops what is planted, and the watch sees it', async ({ context }) => {
  const page = await context.newPage()
  const seen = watch(page, origin)
  await page.goto('/sign-in')
  expect(seen).toMatchObject({ outside: [], refused: [] })
  await page.route('**/sign-in', async route => {
    const response = await route.fetch()
    await route.fulfill({ response, body: (await response.text()).replace('<body>', `<body>${PLANTED}`) })
  })
  await page.goto('/sign-in')
  await expect.poll(() => seen.refused.length).toBeGreaterThanOrEqual(3)
  expect(seen.outside).toEqual(['https://elsewhere.example/x.png'])
  expect(await page.locator('html').getAttribute('data-planted')).toBeNull()
})

test('the mark of the program is served from here', async ({ page }) => {
  await page.goto('/sign-in')
  const mark = await page.locator('link[rel="icon"]').getAttribute('href')
  const answer = await page.request.get(mark ?? '')
  expect([answer.status(), answer.headers()['content-type']]).toEqual([200, 'image/svg+xml'])
})

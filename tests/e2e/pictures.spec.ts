/**
 * A picture of an animal, added from a phone with JavaScript off: what is no picture loses nothing that was written; it is
 * shown, goes along when a practice is asked, and is taken back.
 */
import { expect, type Page } from '@playwright/test'
import sharp from 'sharp'
import { newToken } from '#lib/service/link.ts'
import { COORDINATOR, test } from '#tests/support/journey.ts'

test.use({ javaScriptEnabled: false, viewport: { width: 390, height: 844 } })

/** An animal that nobody is asked about yet, put to a practice. */
const ASKED = `
  with animal as (
    select c.id, c.reference from whereabouts w join casualty c on c.id = w.casualty_id
     where w.until is null and w.keeper = 'centre' and not exists (select from referral r where r.casualty_id = c.id)
     order by c.id limit 1),
  opened as (
    insert into referral (casualty_id, what, opened_at) select id, 'Wants a look', now() from animal returning id, casualty_id),
  put as (
    insert into ask (casualty_id, practice_id, referral_id, state, put_at, lapses_at)
    select casualty_id, (select min(id) from practice), id, 'put', now(), now() + interval '1 day' from opened returning id)
  select put.id, animal.reference from put, animal`

const drawn = () =>
  sharp({ create: { width: 1200, height: 900, channels: 3, background: '#203040' } })
    .jpeg()
    .withExif({ IFD3: { GPSLatitudeRef: 'N', GPSLatitude: '54/1 30/1 0/1' } })
    .toBuffer()

async function send(page: Page, name: string, buffer: Buffer): Promise<void> {
  const form = page.locator('#picture form')
  await form.locator('[name=picture]').setInputFiles({ name, mimeType: 'image/jpeg', buffer })
  await form.getByRole('button', { name: 'Add it' }).click()
}

/** Every picture that the page shows came, with pixels in it. */
const widths = (page: Page) =>
  page.locator('.pictures img').evaluateAll(all => all.map(one => (one as HTMLImageElement).naturalWidth))

test('a picture is added, seen by who is asked, and taken back', async ({
  page,
  browser,
  asPerson,
  records,
}) => {
  const [ask] = await records<{ id: number; reference: string }>(ASKED)
  if (ask === undefined) throw new Error('no animal is left to ask about')
  const { token, tokenHash } = newToken()
  await records(
    `insert into one_time_link (token_hash, purpose, ask_id, made_at, expires_at)
     values ($1, 'ask', $2, now(), now() + interval '1 day')`,
    [tokenHash, ask.id],
  )
  await asPerson(COORDINATOR)
  await page.goto(`/casualties/${encodeURIComponent(ask.reference)}`)
  const before = (await widths(page)).length
  await page.locator('#picture summary').click()
  await page.locator('#picture [name=words]').fill('Left leg, side view')
  await send(page, 'leg.jpg', Buffer.from('no picture at all'))
  await expect(page.getByRole('alert')).toContainText('cannot be read')
  await expect(page.locator('#picture [name=words]')).toHaveValue('Left leg, side view')

  await send(page, 'leg.jpg', await drawn())
  await expect(page).toHaveURL(/done=picture/)
  expect(await page.evaluate(() => document.documentElement.scrollWidth <= window.innerWidth)).toBe(true)
  const shown = page.locator('.pictures > li', { hasText: 'Left leg, side view' })
  await shown.locator('img').scrollIntoViewIfNeeded()
  await expect
    .poll(() => shown.locator('img').evaluate(one => (one as HTMLImageElement).naturalWidth))
    .toBe(320)
  const address = await shown.getByRole('link').getAttribute('href')
  const whole = await page.request.get(address ?? '')
  expect(whole.headers()['content-type']).toBe('image/webp')
  expect((await sharp(await whole.body()).metadata()).exif).toBeUndefined()
  const etag = whole.headers()['etag'] ?? ''
  const again = await page.request.get(address ?? '', { headers: { 'if-none-match': etag } })
  expect(again.status()).toBe(304)

  const practice = await browser.newContext({ javaScriptEnabled: false })
  try {
    const vet = await practice.newPage()
    await vet.goto(`/answer/${token}`)
    await expect(vet.locator('.pictures')).toContainText('Left leg, side view')
    expect((await practice.request.get(address ?? '')).status()).toBe(401)
    await expect.poll(() => widths(vet).then(all => all.every(width => width > 0))).toBe(true)

    await shown.getByText('Take back').first().click()
    await shown.locator('[name=because]').fill('Another animal')
    await shown.getByRole('button', { name: 'Take back' }).click()
    await expect(page.locator('#pictures')).toContainText(/Taken back by .+: Another animal/)
    expect(await widths(page)).toHaveLength(before)
    expect((await page.request.get(address ?? '')).status()).toBe(404)
    await vet.reload()
    await expect(vet.locator('body')).not.toContainText('Left leg, side view')
  } finally {
    await practice.close()
    await records('delete from one_time_link where ask_id = $1', [ask.id])
    await records('delete from ask where id = $1', [ask.id])
  }
})

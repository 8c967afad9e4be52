/**
 * A practice answers the ask of the demonstration through its link, on a phone with JavaScript off: a yes without a time
 * is told so and loses nothing, the yes with a time is booked, and afterwards the link shows nothing of the case.
 */
import { expect, test } from '@playwright/test'
import pg from 'pg'
import { newToken } from '#lib/service/link.ts'
import { surroundings } from '#tests/support/session.ts'

test.use({ javaScriptEnabled: false, viewport: { width: 390, height: 844 } })

const HOURS_AHEAD = 26

test('a link is answered without JavaScript, once', async ({ page }) => {
  const client = new pg.Client({ connectionString: surroundings('DATABASE_URL') })
  await client.connect()
  try {
    const { rows } = await client.query(
      `insert into ask (casualty_id, practice_id, referral_id, state, put_at, lapses_at)
       select casualty_id, (select min(id) from practice), referral_id, 'put', now(), now() + interval '1 day' from ask
        where state = 'put' and referral_id is not null limit 1 returning id, casualty_id as casualty`,
    )
    const [{ id, casualty }] = rows
    const { token, tokenHash } = newToken()
    await client.query(
      `insert into one_time_link (token_hash, purpose, ask_id, made_at, expires_at)
       values ($1, 'ask', $2, now(), now() + interval '1 day')`,
      [tokenHash, id],
    )
    const answer = await page.goto(`/answer/${token}`)
    expect(answer?.status()).toBe(200)
    await expect(page.locator('meta[name=robots]')).toHaveAttribute('content', /noindex/)
    await expect(page.getByRole('heading', { level: 1 })).toContainText('asks you to see this casualty')
    await expect(page.getByText('not recorded').first()).toBeVisible()
    await page.getByLabel('Your name').fill('Ines Hollow')
    await page.getByRole('button', { name: 'Yes, at this time' }).click()
    await expect(page.getByRole('alert')).toContainText('A yes needs the time')
    await expect(page.getByLabel('Your name')).toHaveValue('Ines Hollow')
    const at = new Date(Date.now() + HOURS_AHEAD * 3_600_000).toISOString().slice(0, 16)
    await page.getByLabel('When you see it').fill(at)
    await page.getByRole('button', { name: 'Yes, at this time' }).click()
    await expect(page.getByRole('heading', { level: 1 })).toContainText('Answered yes, to be seen')
    await expect(page.locator('body')).not.toContainText('Buzzard')
    await expect(page.getByRole('button')).toHaveCount(0)

    const booked = await client.query(
      `select (select state from ask where id = $1) as state,
              (select count(*)::int from ask a where a.referral_id = (select referral_id from ask where id = $1) and a.state = 'put') as waiting,
              (select count(*)::int from check_due where casualty_id = $2 and check_slug = 'second-look') as looks,
              (select count(*)::int from claim where casualty_id = $2 and kind = 'hold' and state = 'live') as holds,
              (select count(*)::int from audit x join one_time_link l on x.subject_id = l.id::text
                where x.action = 'link opened' and l.ask_id = $1) as opened`,
      [id, casualty],
    )
    expect(booked.rows[0]).toMatchObject({ state: 'yes', waiting: 0, looks: 1, holds: 1 })
    expect(booked.rows[0].opened).toBeGreaterThanOrEqual(2)
  } finally {
    await client.end()
  }
})

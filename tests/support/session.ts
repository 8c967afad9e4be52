/**
 * A signed-in browser without driving the sign-in page: the cookie that the program itself would set.
 */
import type { BrowserContext } from '@playwright/test'
import { encode } from 'next-auth/jwt'
import pg from 'pg'

const SESSION_SECONDS = 24 * 60 * 60

/** The surroundings that tests/run.mjs gives the browser suite. */
export function surroundings(name: 'DATABASE_URL' | 'NEXTAUTH_SECRET' | 'NEXTAUTH_URL'): string {
  const value = process.env[name]
  if (!value) throw new Error(`${name} is not set: run the browser suite as \`npm run e2e\`.`)
  return value
}

/** Signs somebody of the seeded network in, by e-mail address. */
export async function signIn(context: BrowserContext, email: string): Promise<void> {
  const person = await findPerson(email)
  const value = await encode({
    token: { sub: String(person.id), epoch: person.epoch },
    secret: surroundings('NEXTAUTH_SECRET'),
    maxAge: SESSION_SECONDS,
  })
  await context.addCookies([
    {
      name: 'next-auth.session-token',
      value,
      url: surroundings('NEXTAUTH_URL'),
      httpOnly: true,
      sameSite: 'Lax',
    },
  ])
}

async function findPerson(email: string): Promise<{ id: string; epoch: number }> {
  const client = new pg.Client({ connectionString: surroundings('DATABASE_URL') })
  await client.connect()
  try {
    const { rows } = await client.query<{ id: string; epoch: number }>(
      'select id, session_epoch as epoch from person where lower(email) = lower($1)',
      [email],
    )
    const [found] = rows
    if (found === undefined) throw new Error(`nobody in the seeded network has the address ${email}`)
    return found
  } finally {
    await client.end()
  }
}

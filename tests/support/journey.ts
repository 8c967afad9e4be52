/**
 * What every browser test has: a signed-in page, a count of keys, the clock, the records behind the pages.
 * A word on the browser's console fails the test that caused it.
 */
import { test as base, type Locator, type Page } from '@playwright/test'
import pg from 'pg'
import { signIn, surroundings } from './session.ts'

export const COORDINATOR = 'marit.sollwyn@roostwright.example'
export const MANAGER = 'rupert.ashgarth@roostwright.example'
export const ADMINISTRATOR = 'wilhelmina.sparrowhythe@roostwright.example'
export const HOSPITAL_CARER = 'odile.brackenray@roostwright.example'
export const WARD_CARER = 'sunniva.thackwell@roostwright.example'
export const VET = 'tobias.thessalby@roostwright.example'

type Fixtures = {
  /** Rows of a query on the records. */
  readonly records: <T extends pg.QueryResultRow>(sql: string, values?: readonly unknown[]) => Promise<T[]>
  /** Sets the clock of the program; it runs on again after the test. */
  readonly setClock: (at: Date) => Promise<void>
  /** Signs the page's browser in. */
  readonly asPerson: (email: string) => Promise<void>
  readonly quietConsole: undefined
}

export const test = base.extend<Fixtures>({
  // biome-ignore lint/correctness/noEmptyPattern: Playwright reads the fixtures a function needs from this pattern.
  records: async ({}, use) => {
    const client = new pg.Client({ connectionString: surroundings('DATABASE_URL') })
    await client.connect()
    await use(async (sql, values = []) => (await client.query(sql, [...values])).rows)
    await client.end()
  },
  setClock: async ({ records }, use) => {
    await use(async at => {
      await records(
        'insert into test_clock (id, at) values (1, $1) on conflict (id) do update set at = excluded.at',
        [at],
      )
    })
    await records('delete from test_clock')
  },
  asPerson: async ({ context }, use) => {
    await use(email => signIn(context, email))
  },
  quietConsole: [
    async ({ page }, use) => {
      const said: string[] = []
      page.on('console', message => {
        if (message.type() === 'error' && !isExpected(message.text())) said.push(message.text())
      })
      page.on('pageerror', error => said.push(error.message))
      await use(undefined)
      if (said.length > 0) throw new Error(`the browser's console said: ${said.join(' | ')}`)
    },
    { auto: true },
  ],
})

/** A refused page is an answer, a cut line is a test's own doing, and the browser writes both down. */
function isExpected(text: string): boolean {
  return /status of (40[134]|422)|net::ERR_(FAILED|INTERNET_DISCONNECTED)/.test(text)
}

/**
 * Takes an option of a call. How many a centre takes unasked depends on who came there today: where nothing is left of
 * that, somebody said yes on the phone.
 */
export async function takeOption(option: Locator): Promise<void> {
  const answer = option.locator('input[name^="agreedBy-"]')
  if ((await answer.count()) > 0) await answer.fill('Ada Fenwick')
  await option.locator('button[name="take"]').click()
}

/** Counts key presses beside typed words; nothing but keys reaches the page through it. */
export class Keys {
  readonly page: Page
  pressed = 0

  constructor(page: Page) {
    this.page = page
  }

  async press(key: string): Promise<void> {
    this.pressed += key.split('+').length
    await this.page.keyboard.press(key)
  }

  /** Words as they are typed; the letters are not counted. */
  async type(words: string): Promise<void> {
    await this.page.keyboard.type(words)
  }
}

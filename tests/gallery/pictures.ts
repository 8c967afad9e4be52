/**
 * The README's pictures: the real screens of a running demonstration, one file a screen.
 * `npm run demo` in one terminal, `node --import tsx tests/gallery/pictures.ts http://localhost:3000` in another.
 */
import { mkdirSync } from 'node:fs'
import { chromium } from '@playwright/test'

const OUT = '.github/pictures'
const base = process.argv[2] ?? 'http://localhost:3000'
const browser = await chromium.launch({
  executablePath: process.env['ROOSTWRIGHT_TEST_BROWSER'] ?? '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-gpu', '--disable-background-networking'],
})
mkdirSync(OUT, { recursive: true })

const wide = await browser.newPage({ viewport: { width: 1280, height: 1000 } })
await wide.goto(base)
await wide.getByRole('button', { name: /waiting call|Open the calls/ }).click()
await wide.waitForURL(/calls\/\d+/)
const call = new URL(wide.url()).pathname
await wide.screenshot({ path: `${OUT}/call.png` })
for (const [name, path] of [
  ['weeks', '/weeks/1?housing=pool-pen&days=60'],
  ['round', '/round/5'],
  ['who-is-where', '/casualties'],
] as const) {
  await wide.goto(base + path)
  await wide.screenshot({ path: `${OUT}/${name}.png` })
}
await wide.locator('tbody a[href^="/casualties/"]').nth(2).click()
await wide.waitForURL(/casualties\/./)
await wide.screenshot({ path: `${OUT}/casualty.png` })

const state = await wide.context().storageState()
const phone = await browser.newPage({
  viewport: { width: 390, height: 844 },
  colorScheme: 'dark',
  storageState: state,
})
await phone.goto(`${base}${call}#options`)
await phone.screenshot({ path: `${OUT}/call-phone-dark.png` })
await browser.close()

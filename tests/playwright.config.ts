import { defineConfig, devices } from '@playwright/test'

const ARGS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--no-first-run',
]

const executablePath = process.env['ROOSTWRIGHT_TEST_BROWSER']
const baseURL = process.env['NEXTAUTH_URL']
if (!executablePath || !baseURL)
  throw new Error('Run the browser suite as `npm run e2e`: it starts what this needs.')

export default defineConfig({
  testDir: 'e2e',
  outputDir: 'output/e2e',
  fullyParallel: false,
  forbidOnly: true,
  retries: 0,
  // One: the clock that a test sets is the server's, and so everybody's.
  workers: 1,
  timeout: 120_000,
  expect: { timeout: 20_000 },
  reporter: [['list'], ['json', { outputFile: 'output/e2e.json' }]],
  use: {
    baseURL,
    locale: 'en-GB',
    timezoneId: 'Europe/London',
    trace: 'retain-on-failure',
    launchOptions: { executablePath, args: ARGS },
  },
  projects: [
    { name: 'wide', use: { ...devices['Desktop Chrome'], viewport: { width: 1280, height: 900 } } },
    {
      name: 'phone',
      grep: /@phone/,
      use: {
        ...devices['Desktop Chrome'],
        viewport: { width: 390, height: 844 },
        hasTouch: true,
        isMobile: true,
      },
    },
  ],
})

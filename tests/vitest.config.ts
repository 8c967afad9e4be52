import { fileURLToPath } from 'node:url'
import { defineConfig } from 'vitest/config'

const root = fileURLToPath(new URL('..', import.meta.url))
const quiet = './tests/support/quiet.ts'
const seeded = './tests/support/seeded.ts'
/** Tests of what reads its surroundings once or keeps something for the process: each in a world of its own. */
const APART = ['tests/unit/*.test.ts', 'tests/unit/{boot,web,service,db}/**/*.test.{ts,tsx}']

export default defineConfig({
  root,
  test: {
    allowOnly: false,
    // A zone with an odd offset and its own clock changes: code that leans on the machine's zone shows here.
    env: { TZ: 'Pacific/Chatham' },
    // Ends what hangs, on however busy a machine; speed is judged by the bench.
    testTimeout: 180_000,
    hookTimeout: 180_000,
    // Of what the runner would give one second.
    expect: { poll: { timeout: 30_000 } },
    projects: [
      {
        extends: true,
        resolve: { alias: { 'server-only': `${root}tests/support/server-only.ts` } },
        test: {
          name: 'unit',
          include: ['tests/unit/**/*.test.{ts,tsx}'],
          exclude: APART,
          setupFiles: [quiet, seeded],
          // What it tests is pure: a fresh world for each of two hundred files cost a minute and showed nothing.
          isolate: false,
        },
      },
      {
        extends: true,
        resolve: { alias: { 'server-only': `${root}tests/support/server-only.ts` } },
        test: { name: 'unit-apart', include: APART, setupFiles: [quiet, seeded] },
      },
      {
        extends: true,
        test: { name: 'architecture', include: ['tests/architecture/**/*.test.ts'], setupFiles: [quiet] },
      },
      { extends: true, test: { name: 'types', include: ['tests/types/**/*.test.ts'], setupFiles: [quiet] } },
      {
        extends: true,
        test: {
          name: 'served',
          include: ['tests/served/**/*.test.ts'],
          setupFiles: [quiet],
          // Each starts servers of its own; two at once would only slow each other.
          maxWorkers: 1,
          fileParallelism: false,
        },
      },
      {
        extends: true,
        resolve: { alias: { 'server-only': `${root}tests/support/server-only.ts` } },
        test: {
          name: 'db',
          include: ['tests/db/**/*.test.ts'],
          globalSetup: ['./tests/support/database-template.ts'],
          setupFiles: [quiet, seeded, './tests/support/database.ts'],
          maxWorkers: 2,
        },
      },
    ],
  },
})

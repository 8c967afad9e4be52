import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { playwrightFailures, vitestFailures } from '#tests/support/failures.mjs'

let folder = ''
let report = ''

beforeEach(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'failures-'))
  report = path.join(folder, 'report.json')
})

afterEach(() => rmSync(folder, { recursive: true }))

const write = (content: unknown): void => writeFileSync(report, JSON.stringify(content))

describe('what did not pass', () => {
  test('is named with its file and the beginning of its reason, a line each', () => {
    const tests = [
      { status: 'passed', fullName: 'a door opens' },
      {
        status: 'failed',
        fullName: 'a door shuts',
        failureMessages: ['\u001B[31mexpected 1\n  to be 2\u001B[39m'],
      },
      { status: 'skipped', fullName: 'a door creaks' },
    ]
    write({ testResults: [{ name: '/house/tests/door.test.ts', status: 'failed', assertionResults: tests }] })
    expect(vitestFailures(report, '/house')).toEqual([
      'tests/door.test.ts › a door shuts: expected 1 to be 2',
      'tests/door.test.ts › a door creaks: skipped',
    ])
  })

  test('names a file that could not be read', () => {
    const file = {
      name: '/house/a.test.ts',
      status: 'failed',
      message: 'no such module',
      assertionResults: [],
    }
    write({ testResults: [file] })
    expect(vitestFailures(report, '/house')).toEqual(['a.test.ts: no such module'])
    // What was to be made before its tests could not be: they are skipped, and that is why.
    const skipped = { ...file, assertionResults: [{ status: 'skipped', fullName: 'a door opens' }] }
    write({ testResults: [skipped] })
    expect(vitestFailures(report, '/house')).toEqual([
      'a.test.ts: no such module',
      'a.test.ts › a door opens: skipped',
    ])
  })

  test('is found however deep the browser suite nests it', () => {
    const spec = (status: string, results: object[]) => ({
      file: 'door.spec.ts',
      line: 7,
      title: 'shuts',
      tests: [{ status, projectName: 'phone', results }],
    })
    const inner = { specs: [spec('unexpected', [{}, { error: { message: 'too late' } }])] }
    write({
      suites: [{ specs: [spec('expected', [])], suites: [inner] }],
      errors: [{ message: 'no browser' }],
    })
    expect(playwrightFailures(report)).toEqual([
      'door.spec.ts:7 › shuts (phone): too late',
      'outside any test: no browser',
    ])
  })

  test('is nothing without a report', () => {
    expect([...vitestFailures(report, '/house'), ...playwrightFailures(report)]).toEqual([])
  })
})

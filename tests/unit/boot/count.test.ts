import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { countPlaywright, countVitest } from '#tests/support/count.mjs'

let folder = ''
let report = ''

beforeEach(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'count-'))
  report = path.join(folder, 'report.json')
})

afterEach(() => rmSync(folder, { recursive: true }))

const write = (content: unknown): void => writeFileSync(report, JSON.stringify(content))

const file = (status: string, tests: number) => ({ status, assertionResults: Array(tests).fill({}) })

describe('the count of a suite', () => {
  test('takes what passed', () => {
    write({ numTotalTests: 3, numPassedTests: 3, testResults: [file('passed', 3)] })
    expect(countVitest(report, true)).toEqual({ passed: 3, failed: 0 })
  })

  test('counts a skipped test as failed', () => {
    write({ numTotalTests: 3, numPassedTests: 1, testResults: [file('passed', 3)] })
    expect(countVitest(report, true)).toEqual({ passed: 1, failed: 2 })
    write({ stats: { expected: 4, unexpected: 0, flaky: 0, skipped: 1 }, errors: [] })
    expect(countPlaywright(report, true)).toEqual({ passed: 4, failed: 1 })
  })

  test('counts a file that could not be read', () => {
    write({ numTotalTests: 1, numPassedTests: 1, testResults: [file('passed', 1), file('failed', 0)] })
    expect(countVitest(report, false)).toEqual({ passed: 1, failed: 1 })
  })

  test('is a failure when there are no tests, no report, or only the exit says so', () => {
    write({ numTotalTests: 0, numPassedTests: 0, testResults: [] })
    expect(countVitest(report, true)).toEqual({ passed: 0, failed: 1, why: 'it has no tests' })
    write({ numTotalTests: 1, numPassedTests: 1, testResults: [file('passed', 1)] })
    expect(countVitest(report, false)).toMatchObject({ passed: 1, failed: 1 })
    rmSync(report)
    expect(countPlaywright(report, true)).toEqual({ passed: 0, failed: 1, why: 'it ended without a report' })
  })
})

/**
 * How many tests of a suite passed and failed, from its JSON report. A skipped test counts as failed, and so does a
 * suite without tests or without a report.
 */
import { existsSync, readFileSync } from 'node:fs'

/** @typedef {{ passed: number, failed: number, why?: string }} Count */

/** @param {string} report @param {boolean} hasEndedWell @returns {Count} */
export function countVitest(report, hasEndedWell) {
  return count(report, hasEndedWell, ({ numTotalTests, numPassedTests, testResults }) => {
    /** @type {{ status: string, assertionResults: unknown[] }[]} */
    const files = testResults
    // A file that could not even be read has no tests of its own, yet it must not pass unseen.
    const unread = files.filter(file => file.status === 'failed' && file.assertionResults.length === 0).length
    return { passed: numPassedTests, failed: numTotalTests - numPassedTests + unread }
  })
}

/** @param {string} report @param {boolean} hasEndedWell @returns {Count} */
export function countPlaywright(report, hasEndedWell) {
  return count(report, hasEndedWell, ({ stats, errors }) => ({
    passed: stats.expected,
    failed: stats.unexpected + stats.flaky + stats.skipped + errors.length,
  }))
}

/**
 * @param {string} report @param {boolean} hasEndedWell
 * @param {(read: any) => Count} reader
 * @returns {Count}
 */
function count(report, hasEndedWell, reader) {
  if (!existsSync(report)) return { passed: 0, failed: 1, why: 'it ended without a report' }
  const found = reader(JSON.parse(readFileSync(report, 'utf8')))
  if (found.passed + found.failed === 0) return { passed: 0, failed: 1, why: 'it has no tests' }
  if (found.failed === 0 && !hasEndedWell) {
    return { ...found, failed: 1, why: 'every test passed, yet it ended with an error' }
  }
  return found
}

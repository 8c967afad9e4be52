/**
 * What did not pass, a line each, from a suite's JSON report: the end of a long output must say what its middle showed.
 */
import { existsSync, readFileSync } from 'node:fs'
import path from 'node:path'
import { stripVTControlCharacters } from 'node:util'

const REASON_MAX = 300

/** @param {string} report @param {string} root @returns {string[]} */
export function vitestFailures(report, root) {
  const { testResults = [] } = read(report)
  return testResults.flatMap((/** @type {any} */ file) => {
    const name = path.relative(root, file.name)
    const tests = file.assertionResults
      .filter((/** @type {any} */ test) => test.status !== 'passed')
      .map((/** @type {any} */ test) =>
        line(`${name} › ${test.fullName}`, test.failureMessages?.[0] ?? test.status),
      )
    // Of the file itself: it can't be read, or what is made before its tests failed, which then are skipped.
    return file.message ? [line(name, file.message), ...tests] : tests
  })
}

/** @param {string} report @returns {string[]} */
export function playwrightFailures(report) {
  const { suites = [], errors = [] } = read(report)
  return [
    ...suites.flatMap(specs),
    ...errors.map((/** @type {any} */ error) => line('outside any test', error.message)),
  ]
}

/** @param {any} suite @returns {string[]} */
function specs({ specs: own = [], suites = [] }) {
  return [...own.flatMap(ofSpec), ...suites.flatMap(specs)]
}

/** @param {any} spec @returns {string[]} */
function ofSpec({ file, line: row, title, tests }) {
  return tests
    .filter((/** @type {any} */ test) => test.status !== 'expected')
    .map((/** @type {any} */ test) => {
      const thrown = test.results.find((/** @type {any} */ result) => result.error)?.error
      return line(`${file}:${row} › ${title} (${test.projectName})`, thrown?.message ?? test.status)
    })
}

/** @param {string} report @returns {any} */
function read(report) {
  return existsSync(report) ? JSON.parse(readFileSync(report, 'utf8')) : {}
}

/** @param {string} where @param {string | undefined} why */
function line(where, why = 'no reason given') {
  const reason = stripVTControlCharacters(why).replaceAll(/\s+/g, ' ').trim()
  return `${where}: ${reason.slice(0, REASON_MAX)}`
}

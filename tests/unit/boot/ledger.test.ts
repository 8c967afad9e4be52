import { spawn } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { birthOf, endSurvivors, enter, openLedger, survivors } from '#seed/boot/ledger.mjs'

let folder = ''
let ledger = ''

beforeEach(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'ledger-'))
  ledger = path.join(folder, 'running.json')
  openLedger(ledger)
})

afterEach(() => rmSync(folder, { recursive: true }))

/** A process that ignores being asked to end. */
async function startStubborn(): Promise<number> {
  const child = spawn('/bin/sh', ['-c', "trap '' TERM; echo ready; while :; do sleep 0.1; done"], {
    detached: true,
  })
  await new Promise(resolve => child.stdout.once('data', resolve))
  return child.pid!
}

test('what a killed start left behind is ended, even when it ignores being asked', async () => {
  const pid = await startStubborn()
  enter(pid, 'web')
  expect(survivors(ledger)).toMatchObject([{ pid, what: 'web' }])
  expect(await endSurvivors(ledger)).toBe(1)
  expect(birthOf(pid)).toBeUndefined()
})

test('a process that got the number of one of ours is left alone', async () => {
  const pid = await startStubborn()
  enter(pid, 'web')
  const written = readFileSync(ledger, 'utf8')
  writeFileSync(ledger, written.replace(birthOf(pid) ?? '', 'another birth'))
  expect(await endSurvivors(ledger)).toBe(0)
  expect(birthOf(pid)).toBeDefined()
  process.kill(-pid, 'SIGKILL')
})

test('a ledger that is not there, or torn, lists nobody', () => {
  expect(survivors(path.join(folder, 'none.json'))).toEqual([])
  writeFileSync(ledger, '[{"pid":')
  expect(survivors(ledger)).toEqual([])
})

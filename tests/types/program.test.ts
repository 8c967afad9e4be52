import { spawnSync } from 'node:child_process'
import { fileURLToPath } from 'node:url'
import { expect, test } from 'vitest'

const root = fileURLToPath(new URL('../..', import.meta.url))

const said = (program: string, ...args: string[]): string => {
  const { status, stdout, stderr } = spawnSync(process.execPath, [program, ...args], {
    cwd: root,
    encoding: 'utf8',
  })
  return status === 0 ? '' : `${stdout}${stderr}`
}

test('every file keeps its types, and every link leads to a page', { timeout: 120_000 }, () => {
  expect(said('node_modules/next/dist/bin/next', 'typegen')).toBe('')
  expect(said('node_modules/typescript/bin/tsc', '--noEmit')).toBe('')
})

import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { isInstalled } from '#seed/boot/install.mjs'

let root = ''

beforeEach(() => {
  root = mkdtempSync(path.join(tmpdir(), 'install-'))
  mkdirSync(path.join(root, 'node_modules'))
})

afterEach(() => rmSync(root, { recursive: true }))

const lock = (file: string, packages: Record<string, object>): void =>
  writeFileSync(path.join(root, file), JSON.stringify({ packages }))

const wanted = {
  '': {},
  'node_modules/a': { version: '1.0.0' },
  'node_modules/b': { version: '2.0.0', optional: true },
}

test('packages are as the lock file says when each has its version; one for another system may be absent', () => {
  lock('package-lock.json', wanted)
  expect(isInstalled(root)).toBe(false)
  lock('node_modules/.package-lock.json', { 'node_modules/a': { version: '1.0.0' } })
  expect(isInstalled(root)).toBe(true)
})

test('another version, or one too few, asks for an installation', () => {
  lock('package-lock.json', wanted)
  lock('node_modules/.package-lock.json', { 'node_modules/a': { version: '1.0.1' } })
  expect(isInstalled(root)).toBe(false)
  lock('node_modules/.package-lock.json', { 'node_modules/b': { version: '2.0.0' } })
  expect(isInstalled(root)).toBe(false)
})

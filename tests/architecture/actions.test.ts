import { describe, expect, it } from 'vitest'
import { actionComplaints, isActionFile, usesOurWrapper } from './actions.ts'
import { sourcesIn } from './source.ts'

const sources = sourcesIn('app/', 'lib/')

describe('server actions', () => {
  it('all go through the wrapper', () => {
    expect(sources.filter(isActionFile).length).toBeGreaterThan(0)
    expect(sources.flatMap(actionComplaints)).toEqual([])
  })

  it('use our wrapper and no other of that name', () => {
    const foreign = sources.filter(source => isActionFile(source) && !usesOurWrapper(source))
    expect(foreign.map(({ path }) => path)).toEqual([])
  })
})

describe('a planted leak', () => {
  const inActions = (line: string) =>
    actionComplaints({ path: 'app/x/actions.ts', text: `'use server'\n${line}` })

  it.each([
    'export async function drop(id: string) {}',
    'export const drop = async () => {}',
    'export default defineAction(async () => ({}))',
    "export { drop } from './other.ts'",
    'export const a = defineAction(f), b = async () => {}',
    'const drop = async () => {}\nexport { drop }',
    "export * from './other.ts'",
    'export let a = defineAction(f)',
  ])('is found: %s', line => {
    expect(inActions(line)).toHaveLength(1)
  })

  it('is found inside a component', () => {
    const text = "export function Form() {\n  async function run() {\n    'use server'\n  }\n  return run\n}"
    expect(actionComplaints({ path: 'app/x/page.tsx', text })).toEqual([
      "app/x/page.tsx:3 says 'use server' inside",
    ])
  })

  it('is not seen in what the wrapper made', () => {
    expect(inActions('export const a = defineAction(f)\nexport const b = definePublicAction(f)')).toEqual([])
    expect(usesOurWrapper({ path: 'a.ts', text: "import { defineAction } from './mine.ts'" })).toBe(false)
  })
})

import { describe, expect, it } from 'vitest'
import { importComplaints, layerOf } from './imports.ts'
import { FILES_MIN, LAYERS } from './layers.ts'
import { allSources } from './source.ts'

describe('the law of imports', () => {
  it('is kept by every file', () => {
    const sources = allSources()
    expect(sources.length).toBeGreaterThanOrEqual(FILES_MIN)
    expect(sources.flatMap(importComplaints)).toEqual([])
  })

  it('finds a file in every room that is not marked as waiting', () => {
    const rooms = new Set(allSources().map(({ path }) => layerOf(path)?.name))
    const empty = LAYERS.filter(layer => layer.mayBeEmpty !== true && !rooms.has(layer.name))
    expect(empty.map(({ name }) => name)).toEqual([])
  })

  it('lets a room name only rooms above it, so no circle can close', () => {
    const wrong = LAYERS.flatMap((layer, place) => {
      const above = LAYERS.slice(0, place).map(({ name }) => name)
      return [...layer.imports, ...(layer.typesOf ?? [])]
        .filter(name => !above.includes(name))
        .map(name => `${layer.name} names ${name}`)
    })
    expect(wrong).toEqual([])
  })
})

describe('a planted breach', () => {
  it.each([
    ['lib/numerics/sum.ts', "import { db } from '#lib/db/client.ts'", '#lib/db/client.ts is in db'],
    ['lib/numerics/sum.ts', "import type { Db } from '../db/client.ts'", '../db/client.ts is in db'],
    ['lib/forecast/fan.ts', "import { z } from 'zod'", 'package zod is not listed'],
    ['lib/authz/policy.ts', "import { dayOfDate } from '#lib/domain/day.ts'", 'is in domain'],
    ['lib/service/call.ts', "import { redirect } from 'next/navigation'", 'package next/navigation'],
    ['app/(desk)/calls/page.tsx', "import { db } from '#lib/db/client.ts'", 'is in db'],
    ['app/_ui/fan/fan.tsx', "import { currentActor } from '#lib/web/session.ts'", 'is in web'],
    ['lib/domain/day.ts', "export { x } from '#lib/words/said.ts'", 'is in words'],
    ['lib/domain/day.ts', "export * from '#lib/words/said.ts'", 'is in words'],
    ['lib/plan/cost.ts', "type X = import('#lib/db/client.ts').Db", 'is in db'],
    ['lib/web/session.ts', "const x = await import('react')", 'react is loaded on demand'],
    ['seed/seed.ts', 'const x = await import(name)', 'something computed'],
    ['tests/montecarlo/model.ts', "import { x } from '#lib/forecast/model.ts'", 'is in forecast'],
    ['tests/support/monte-carlo.ts', "import { x } from '#lib/numerics/sum.ts'", 'is in numerics'],
    ['lib/utils/misc.ts', 'export const x = 1', 'stands in no room'],
    ['lib/domain/day.ts', "import { x } from '../../elsewhere/x.ts'", 'leads into no room'],
  ])('in %s is found: %s', (path, text, complaint) => {
    expect(importComplaints({ path, text }).join()).toContain(complaint)
  })

  it.each([
    [
      'lib/domain/day.ts',
      "import { TZDate } from '@date-fns/tz'\nimport { Failure } from '#lib/kernel/failure.ts'",
    ],
    ['lib/authz/policy.ts', "import type { DayNumber } from '#lib/domain/day.ts'"],
    ['app/layout.tsx', "import './_ui/look.css'"],
  ])('is not seen where there is none: %s', (path, text) => {
    expect(importComplaints({ path, text })).toEqual([])
  })
})

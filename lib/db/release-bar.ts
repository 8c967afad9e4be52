/**
 * What stands against the release of animals: their checks that bar the way, what operations left in them, their stage, and
 * the seasons of their species.
 * Promise: as many questions for a hundred animals as for one. Read as recorded; what it means is decided elsewhere.
 */
import 'server-only'
import { z } from 'zod'
import type { Grant } from '#lib/authz/demand.ts'
import { GATE_BARS } from '#lib/domain/care-plan.ts'
import type { GateCheck } from '#lib/domain/gate.ts'
import { type SpeciesSeason, speciesSeason } from '#lib/domain/season-gate.ts'
import { IMPLANTS, type ImplantKind, type ImplantState } from '#lib/domain/surgery.ts'
import { groupBy } from '#lib/kernel/group-by.ts'
import { db } from './client.ts'

export type BarFacts = {
  readonly id: number
  readonly reference: string
  readonly species: string
  readonly stageNo: number
  readonly checks: readonly GateCheck[]
  readonly implants: readonly { readonly kind: ImplantKind; readonly state: ImplantState }[]
  readonly seasons: readonly SpeciesSeason[]
}

/** The facts of these animals, in no order. */
export async function listBarFacts(
  _grant: Grant<'casualty.read'>,
  ids: readonly number[],
): Promise<BarFacts[]> {
  const [animals, checks, implants] = await Promise.all([
    listAnimals(ids),
    listGateChecks(ids),
    listImplantsOf(ids),
  ])
  const rows = await db().speciesSeason.findMany({
    where: { speciesSlug: { in: [...new Set(animals.map(({ species }) => species))] }, isActive: true },
    orderBy: [{ speciesSlug: 'asc' }, { kind: 'asc' }],
  })
  const seasons = groupBy(rows, row => row.speciesSlug)
  const checksBy = groupBy(checks, ({ casualtyId }) => casualtyId)
  const implantsBy = groupBy(implants, ({ casualtyId }) => casualtyId)
  return animals.map(animal => ({
    ...animal,
    checks: checksBy.get(animal.id) ?? [],
    implants: implantsBy.get(animal.id) ?? [],
    seasons: (seasons.get(animal.species) ?? []).map(row => speciesSeason.parse(row)),
  }))
}

function listAnimals(ids: readonly number[]) {
  return db().$queryRaw<{ id: number; reference: string; species: string; stageNo: number }[]>`
    select c.id, c.reference, c.species_slug as species,
           coalesce((select max(f.stage_no) from stage_fact f
              where f.casualty_id = c.id and f.kind = 'began' and not f.is_void
                and not exists (select from stage_fact z where z.supersedes = f.id)), 1) as "stageNo"
      from casualty c where c.id = any (${[...ids]}::int[])`
}

async function listGateChecks(ids: readonly number[]) {
  const rows = await db().checkDue.findMany({
    where: { casualtyId: { in: [...ids] }, requiredFor: { not: null } },
    orderBy: [{ dueOn: { sort: 'asc', nulls: 'last' } }, { stageNo: 'asc' }, { id: 'asc' }],
  })
  return rows.map(row => ({
    casualtyId: row.casualtyId,
    slug: row.checkSlug,
    what: row.what,
    stageNo: row.stageNo,
    requiredFor: GATE_BARS.find(one => one === row.requiredFor) ?? null,
    doneAt: row.doneAt,
    passed: row.passed,
    isCalledOff: row.calledOffAt !== null,
  }))
}

const implantOf = z.object({
  casualtyId: z.int(),
  kind: z.enum(IMPLANTS),
  state: z.enum(['in place', 'out', 'signed to stay']),
})

async function listImplantsOf(ids: readonly number[]) {
  const rows = await db().$queryRaw<unknown[]>`
    select casualty_id as "casualtyId", kind, state from implant_now
     where casualty_id = any (${[...ids]}::int[]) order by id`
  return rows.map(row => implantOf.parse(row))
}

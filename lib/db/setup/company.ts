/**
 * Companies: who may share an enclosure. Promise: a company keeps its key; its side changes only while nobody stands by
 * it in a room that keeps sides apart (the service asks). Writes run inside an entry, over the version that was read.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import { type Company, SIDES } from '#lib/domain/knowledge-form.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { db } from '../client.ts'
import type { EntryTx } from '../entry.ts'
import { refuseStale } from './stale.ts'

export type CompanyRow = Company & {
  readonly slug: string
  readonly version: number
  /** Species that are of it by habit. */
  readonly species: readonly { readonly name: string; readonly slug: string; readonly adultAlone: string }[]
  /** Enclosures that take it. */
  readonly enclosures: number
}

const included = {
  speciesByCompanySlug: {
    where: { isActive: true },
    select: { slug: true, commonName: true, adultAlone: true },
    orderBy: { commonName: 'asc' as const },
  },
  _count: { select: { stockingByCompanySlug: { where: { enclosure: { isActive: true } } } } },
}

export async function listCompanyRows(_grant: Grant<'setup.read'>): Promise<CompanyRow[]> {
  const rows = await db().company.findMany({ include: included, orderBy: { slug: 'asc' } })
  return rows.map(companyOf)
}

export async function getCompanyRow(_grant: Grant<'setup.read'>, slug: string): Promise<CompanyRow> {
  const row = await db().company.findUnique({ where: { slug }, include: included })
  if (row === null) throw new Failure('not-found')
  return companyOf(row)
}

export type StockedRow = {
  readonly enclosureId: number
  readonly enclosure: string
  readonly centre: string
  readonly places: number
}

/** Where a company is taken, most places first. */
export async function listStocked(
  _grant: Grant<'setup.read'>,
  slug: string,
  most: number,
): Promise<StockedRow[]> {
  return db().$queryRaw`
    select e.id as "enclosureId", e.name || ', ' || r.name as enclosure, c.name as centre, s.places
      from stocking s join enclosure e on e.id = s.enclosure_id join room r on r.id = e.room_id join centre c on c.id = e.centre_id
     where s.company_slug = ${slug}::text and e.is_active and r.is_active
     order by s.places desc, c.name, r.walking_order, e.walking_order limit ${most}::int`
}

/** Who of a company is in, or promised to, a room that keeps predators and prey apart. */
export async function listApart(
  { tx }: EntryTx,
  slug: string,
  at: Date,
): Promise<{ reference: string; isPromise: boolean }[]> {
  return tx.$queryRaw`
    select distinct c.reference, k.kind = 'hold' as "isPromise" from claim k join casualty c on c.id = k.casualty_id
     where k.company_slug = ${slug}::text and k.room_apart_id is not null and k.state = 'live'
       and (k.ends_at is null or k.ends_at > ${at}::timestamptz) order by 1`
}

export async function insertCompany({ tx }: EntryTx, slug: string, company: Company): Promise<void> {
  const made = await tx.company.createMany({ data: [{ ...company, slug }], skipDuplicates: true })
  if (made.count === 0) throw new Failure('rule', { rule: 'key-there-already', field: 'slug' })
}

export async function updateCompany(
  { tx }: EntryTx,
  { id, version }: { readonly id: string; readonly version: number },
  company: Company,
): Promise<void> {
  const written = await tx.company.updateMany({
    where: { slug: id, version },
    data: { ...company, version: { increment: 1 } },
  })
  await refuseStale(written, () => tx.company.findUnique({ where: { slug: id }, select: { version: true } }))
}

type Row = Omit<CompanyRow, 'preys' | 'species' | 'enclosures'> & {
  readonly preys: string | null
  readonly speciesByCompanySlug: readonly { slug: string; commonName: string; adultAlone: string }[]
  readonly _count: { readonly stockingByCompanySlug: number }
}

function companyOf({ _count, speciesByCompanySlug, preys, ...row }: Row): CompanyRow {
  return {
    ...row,
    preys: SIDES.find(side => side === preys) ?? null,
    species: speciesByCompanySlug.map(({ commonName, ...one }) => ({ ...one, name: commonName })),
    enclosures: _count.stockingByCompanySlug,
  }
}

/** What setup still lacks so that placing works. */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import type { DueItem } from '#lib/domain/due.ts'
import { Prisma } from '#prisma/generated/client.ts'
import { readOwed } from '../due-part.ts'

const NAMES_SHOWN = 3

/** What setup still lacks so that placing works. */
export async function listSetupGaps(_grant: Grant<'due.read'>, now: Date): Promise<DueItem[]> {
  const gap = (name: string, from: Prisma.Sql) => Prisma.sql`
    select ${name} as id, ${now}::timestamptz as at, jsonb_build_object('kind', 'gap', 'gap', ${name}::text,
           'count', count(*), 'names', to_jsonb((array_agg(x.name order by x.name))[:${NAMES_SHOWN}::int])) as about
      from (${from}) x having count(*) > 0`
  const none = (from: Prisma.Sql) => Prisma.sql`select ''::text as name where not exists (${from})`
  const centres = (without: Prisma.Sql) =>
    Prisma.sql`select c.name from centre c where c.is_active and not exists (${without})`
  return readOwed(
    'administrator',
    Prisma.join(
      [
        gap(
          'no-coordinator',
          none(Prisma.sql`select from person_role r join person p on p.id = r.person_id and p.is_active
            where r.role = 'coordinator'`),
        ),
        gap('no-centre', none(Prisma.sql`select from centre where is_active`)),
        gap(
          'centre-without-enclosure',
          centres(Prisma.sql`select from enclosure e where e.centre_id = c.id and e.is_active`),
        ),
        gap(
          'centre-without-carer',
          centres(Prisma.sql`select from person_role r join person p on p.id = r.person_id and p.is_active
            where r.role = 'carer' and r.centre_id = c.id`),
        ),
        gap('centre-without-hours', centres(Prisma.sql`select from centre_hours h where h.centre_id = c.id`)),
        gap(
          'enclosure-without-stocking',
          Prisma.sql`select ce.name || ', ' || e.name as name from enclosure e join centre ce on ce.id = e.centre_id
            where e.is_active and ce.is_active and not exists (select from stocking s where s.enclosure_id = e.id)`,
        ),
        gap(
          'practice-without-animals',
          Prisma.sql`select pr.name from practice pr where pr.is_active
            and not exists (select from practice_sees s where s.practice_id = pr.id)`,
        ),
      ],
      ' union all ',
    ),
  )
}

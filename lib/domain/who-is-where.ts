/**
 * What Who is where can be asked: which animals, by which words, in which order, which page.
 * Promise: the address of a list says all of it, and reads back as it was; what makes no sense is refused by name.
 */
import { z } from 'zod'
import { CARE_STAGES } from './housing.ts'

/** Everybody in care, those of whom something has to be seen to, or the closed cases. */
export const LIST_KINDS = ['in care', 'short', 'ready', 'fit', 'on the way', 'gone'] as const
export type ListKind = (typeof LIST_KINDS)[number]

export const LIST_ORDERS = ['reference', 'species', 'stage', 'place', 'since', 'until', 'check'] as const
export type ListOrder = (typeof LIST_ORDERS)[number]

/** Why an animal in the building has no proper place. */
export const SHORT_CAUSES = [
  'no-enclosure',
  'closed',
  'not-stocked',
  'company',
  'room',
  'full',
  'quarantine',
] as const
export type ShortCause = (typeof SHORT_CAUSES)[number]

const TEXT_MAX = 60
const blank = z.literal('').transform(() => undefined)

const filters = {
  show: z.enum(LIST_KINDS).default('in care'),
  centre: z.union([blank, z.coerce.number().int().positive()]).optional(),
  group: z.union([blank, z.string().max(TEXT_MAX)]).optional(),
  stage: z.union([blank, z.enum(CARE_STAGES)]).optional(),
  text: z
    .string()
    .trim()
    .max(TEXT_MAX)
    .transform(typed => (typed === '' ? undefined : typed))
    .optional(),
  order: z.enum(LIST_ORDERS).default('place'),
  down: z.union([z.boolean(), z.enum(['yes', '']).transform(said => said === 'yes')]).default(false),
}

/** Filters and order, as the page and its export share them. */
export const whoIsWhereFilter = z.object(filters)
export type WhoIsWhereFilter = z.infer<typeof whoIsWhereFilter>

export const whoIsWhereQuery = z.object({
  ...filters,
  page: z.coerce.number().int().positive().default(1),
})
export type WhoIsWhereQuery = z.infer<typeof whoIsWhereQuery>

/** The same as words of an address; what is usual is left out. */
export function queryOf(asked: WhoIsWhereFilter): Record<string, string | undefined> {
  return {
    show: asked.show === 'in care' ? undefined : asked.show,
    centre: asked.centre?.toString(),
    group: asked.group,
    stage: asked.stage,
    text: asked.text,
    order: asked.order === 'place' ? undefined : asked.order,
    down: asked.down ? 'yes' : undefined,
  }
}

/** The six centres; their numbers in the database are their places in this list, from 1. */
import { AVERBROOK } from './averbrook.ts'
import type { CentrePlan } from './centre-types.ts'
import { FARROWMERE } from './farrowmere.ts'
import { OSTERSKELD } from './osterskeld.ts'
import { LANTERNHAY, TAMSEL, WITHENHOLT } from './small-centres.ts'

export const CENTRES: readonly CentrePlan[] = [
  AVERBROOK,
  TAMSEL,
  FARROWMERE,
  OSTERSKELD,
  WITHENHOLT,
  LANTERNHAY,
]

/** The number of a centre. */
export function centreIdOf(centre: CentrePlan): number {
  return CENTRES.indexOf(centre) + 1
}

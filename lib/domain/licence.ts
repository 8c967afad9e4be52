/**
 * Licences: which rule holds where, for which kind of holder a clock runs, who may hold an animal at all.
 * Promise: clocks count from arrival; a rule of Great Britain holds in each of its countries. The tool shows the day a
 * rule was last reviewed and says that licences are the duty of whoever holds the animal. Days are day numbers.
 */
import { z } from 'zod'
import type { DayNumber, PlainDate } from './day.ts'
import { dateOfDay } from './day.ts'
import { idInput } from './record.ts'

export const HOLDERS = ['authorised person', 'vet', 'anyone'] as const
export type Holder = (typeof HOLDERS)[number]

export type LicenceRule = {
  readonly key: string
  readonly meaning: string
  readonly jurisdiction: string | null
  readonly clock_days: readonly number[]
  readonly clock_holders: readonly Holder[]
  readonly needs_holder: boolean
  readonly holders: readonly {
    readonly centreId: number
    readonly from: PlainDate
    readonly until: PlainDate | null
  }[]
}

const COUNTRIES_OF_GB = ['england', 'wales', 'scotland']

/** Whether a rule of a jurisdiction holds where the network is; the database's licence_applies says the same. */
export function appliesIn(rule: string | null, network: string): boolean {
  if (rule === null) return true
  const [of, here] = [rule.toLowerCase(), network.toLowerCase()]
  if (of.split(/\s*(?:,|;|\sand\s)\s*/).includes(here)) return true
  return (of === 'gb' && COUNTRIES_OF_GB.includes(here)) || (here === 'gb' && of !== 'eu')
}

/** The rule that keeps a centre from holding such an animal on a day; undefined where it may. */
export function unauthorisedAt<Rule extends LicenceRule>(
  rules: readonly Rule[],
  at: { readonly centreId: number; readonly day: DayNumber; readonly jurisdiction: string },
): Rule | undefined {
  const date = dateOfDay(at.day)
  return rules.find(
    rule =>
      rule.needs_holder &&
      appliesIn(rule.jurisdiction, at.jurisdiction) &&
      !rule.holders.some(
        one => one.centreId === at.centreId && one.from <= date && (one.until === null || date <= one.until),
      ),
  )
}

export type Clock = {
  readonly days: number
  readonly on: DayNumber
  readonly holder: Holder
  /** It runs for whoever has the animal now. */
  readonly isRunning: boolean
}

/** The clocks of a rule, each for its kind of holder. */
export function clocksOf(
  rule: Pick<LicenceRule, 'clock_days' | 'clock_holders'>,
  arrivedOn: DayNumber,
  keeper: 'centre' | 'practice' | null,
): Clock[] {
  return rule.clock_days.map((days, at) => {
    const holder = rule.clock_holders[at] ?? 'anyone'
    const isRunning =
      keeper !== null &&
      (holder === 'anyone' || holder === (keeper === 'practice' ? 'vet' : 'authorised person'))
    return { days, on: arrivedOn + days, holder, isRunning }
  })
}

/** Warned this long before a clock runs out, and once more on the last day. */
export const LICENCE_DAYS_AHEAD = 5
export const LICENCE_LAST_DAYS = 1

const date = z.iso.date()
const blank = z.literal('').transform(() => null)

export const licenceHolderForm = z
  .object({
    centreId: idInput,
    licenceNo: z.string().trim().min(1).max(80),
    validFrom: date,
    validUntil: z.union([blank, date]).default(null),
  })
  .refine(one => one.validUntil === null || one.validUntil >= one.validFrom, {
    path: ['validUntil'],
    params: { rule: 'licence_holder_ends_after_it_begins' },
  })
export type LicenceHolder = z.infer<typeof licenceHolderForm>

export const licenceHolderOff = z.object({ centreId: idInput })

export const licenceWordInput = z.object({
  key: z.string().min(1),
  words: z.string().trim().min(1).max(200),
})

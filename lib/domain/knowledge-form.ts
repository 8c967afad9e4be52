/**
 * Companies, groups and rules of the trade as setup changes them: who may share, how a group behaves, what the law and
 * good handling ask. Promise: what the forms accept the tables accept; every fact carries its mark.
 */
import { z } from 'zod'
import { nameField } from './contact.ts'
import { STOCK_MAX } from './enclosure.ts'
import { filledEntries } from './form-rows.ts'
import { type GroupHousing, housedFrom } from './group-housing.ts'
import { CARE_STAGES, HOUSING_TYPES } from './housing.ts'
import { HOLDERS } from './licence.ts'
import { blankable, checkboxText, integerText, listText, plainDateText } from './text.ts'

export const MARK_MAX = 80
export const MEANING_MAX = 300
export const TEMPERAMENT_MAX = 400
export const CLOCK_MAX_DAYS = 1500
export const SIDES = ['predator', 'prey'] as const
/** Kinds of rules that setup changes; housing and company keys only name what has tables of its own. */
export const RULE_KINDS = ['handling', 'licence'] as const
export type RuleKind = (typeof RULE_KINDS)[number]

const SLUG = /^[a-z0-9]+(-[a-z0-9]+)*$/
export const slugField = z
  .string()
  .trim()
  .min(1)
  .max(80)
  .refine(text => text === '' || SLUG.test(text), { params: { rule: 'not-a-key' } })
export const markField = z.string().trim().min(1).max(MARK_MAX).meta({ title: 'Source' })
export const reviewedOnField = blankable(plainDateText).meta({ title: 'Last reviewed on' })

export const companyFields = {
  slug: slugField.meta({ title: 'Key', hint: 'Small letters, digits and hyphens, such as thrushes' }),
  members: z.string().trim().min(1).max(MEANING_MAX).meta({ title: 'Who may share' }),
  preys: blankable(z.enum(SIDES)).meta({ title: 'Side' }),
  mark: markField,
}
export const companyForm = z.object({
  members: companyFields.members,
  preys: companyFields.preys,
  mark: companyFields.mark,
})
export const newCompanyForm = companyForm.extend({ slug: companyFields.slug })
export type Company = z.infer<typeof companyForm>

/** What carers' minutes a day are given for: each stage, and young that are fed by hand. */
export const MINUTES_OF = [...CARE_STAGES, 'hand-rearing'] as const
const MINUTES_MAX = 600

const housingOfStages = z.record(z.string(), blankable(z.enum(HOUSING_TYPES))).default({})

export const groupFields = {
  name: nameField.meta({ title: 'Name' }),
  defaultCompany: z.string().min(1).meta({ title: 'Usual company' }),
  isHighRiskInfluenza: checkboxText.meta({ title: 'At high risk of bird flu: looked at outside first' }),
  temperament: z.string().trim().max(TEMPERAMENT_MAX).meta({ title: 'Temperament and needs' }),
  temperamentMark: markField,
  housing: housingOfStages,
  housingElse: housingOfStages,
  housingMark: markField,
  stock: filledEntries(integerText.pipe(z.int().positive().max(STOCK_MAX))),
  stockMark: z.string().trim().min(1).max(200).meta({ title: 'Source' }),
  minutes: filledEntries(integerText.pipe(z.int().positive().max(MINUTES_MAX))),
  minutesMark: markField,
  reviewedOn: reviewedOnField,
}
const groupShape = z.object({
  ...groupFields,
  stock: groupFields.stock
    .transform(rows => Object.fromEntries(rows))
    .pipe(z.partialRecord(z.enum(HOUSING_TYPES), z.int())),
  minutes: groupFields.minutes
    .transform(rows => Object.fromEntries(rows))
    .pipe(z.partialRecord(z.enum(MINUTES_OF), z.int())),
})
type GroupTyped = Omit<z.infer<typeof groupShape>, 'housing' | 'housingElse'>
export const groupForm = groupShape.transform(
  ({ housing, housingElse, ...group }): Group => ({
    ...group,
    housing: housedFrom(housing, housingElse),
  }),
)
export type Group = GroupTyped & { readonly housing: GroupHousing }

export const CLASSES = ['bird', 'mammal'] as const
export const groupClassField = z.enum(CLASSES).meta({ title: 'Class' })
export const newGroupClassForm = z.object({ class: groupClassField })

export const ruleFields = {
  kind: z.enum(RULE_KINDS).meta({ title: 'Kind' }),
  key: companyFields.slug,
  meaning: z.string().trim().min(1).max(MEANING_MAX).meta({ title: 'What it says' }),
  jurisdiction: blankable(z.string().trim().max(60)).meta({
    title: 'Where it holds',
    hint: 'Empty: everywhere',
  }),
  clockDays: listText
    .pipe(z.array(integerText.pipe(z.int().positive().max(CLOCK_MAX_DAYS))).max(10))
    .meta({ title: 'Days it counts', hint: 'Whole numbers with semicolons between them, such as 15; 42' }),
  clockHolders: listText
    .pipe(z.array(z.enum(HOLDERS)).max(10))
    .default([])
    .meta({
      title: 'For whom each counts',
      hint: `${HOLDERS.join(', ')}; in the order of the days, semicolons between them`,
    }),
  needsHolder: z
    .union([z.boolean(), z.enum(['yes', 'no']).transform(said => said === 'yes')])
    .default(false)
    .meta({ title: 'Only for authorised centres' }),
  mark: markField,
  reviewedOn: reviewedOnField,
}
export const ruleForm = z.object({
  meaning: ruleFields.meaning,
  jurisdiction: ruleFields.jurisdiction,
  clockDays: ruleFields.clockDays,
  clockHolders: ruleFields.clockHolders,
  needsHolder: ruleFields.needsHolder,
  mark: ruleFields.mark,
  reviewedOn: ruleFields.reviewedOn,
})
export const newRuleForm = ruleForm.extend({ kind: ruleFields.kind, key: ruleFields.key })
export type Rule = z.infer<typeof ruleForm>

/** The key of a row from its name: "Great tit" is great-tit. */
export function slugOf(name: string): string {
  return name
    .normalize('NFKD')
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, '-')
    .replaceAll(/^-+|-+$/g, '')
    .slice(0, 80)
}

/**
 * What every action of setup reads from its form and where it goes afterwards.
 */
import type { Route } from 'next'
import { CARE_STAGES, type CareStage } from '#lib/domain/housing.ts'
import { RULE_KINDS, type RuleKind } from '#lib/domain/knowledge-form.ts'
import { parse } from '#lib/domain/parse.ts'
import { idInput } from '#lib/domain/record.ts'
import { SEASON_KINDS } from '#lib/domain/season-gate.ts'
import { Failure } from '#lib/kernel/failure.ts'
import type { FormInput } from './form.ts'
import { paths, type SetupNoun } from './paths.ts'

/** The number of the row a form is about. */
export function idIn(form: FormInput, name = 'id'): number {
  return parse(idInput, form[name])
}

/** The text of a field; '' where it was not sent. */
export function textIn(form: FormInput, name: string): string {
  const value = form[name]
  return typeof value === 'string' ? value : ''
}

/** The page of a row, with the word of what was done. */
export function keptAt(noun: SetupNoun, id: string | number, kept: string): Route {
  return paths.setupItem(noun, id, { kept })
}

/** Which of the two words a switch was pressed with. */
export function switchedTo(form: FormInput): 'on' | 'off' {
  return form['isActive'] === 'on' ? 'on' : 'off'
}

type ArrivalsKey = { readonly centreId: number; readonly group: string }

/** The address of a line of arrivals: "3.falcons". */
export function arrivalsIdOf({ centreId, group }: ArrivalsKey): string {
  return `${centreId}.${group}`
}

/** The line that an address names; one that names none is not found. */
export function arrivalsKeyOf(id: string): ArrivalsKey {
  const [, centreId, group] = /^([1-9]\d{0,8})\.(.+)$/.exec(id) ?? []
  if (centreId === undefined || group === undefined) throw new Failure('not-found')
  return { centreId: Number(centreId), group }
}

/** The address of a rule: "licence.gb-badger-act". */
export function ruleIdOf({ kind, key }: RuleKey): string {
  return `${kind}.${key}`
}

type RuleKey = { readonly kind: RuleKind; readonly key: string }

/** The rule that an address names; one that names none is not found. */
export function ruleKeyOf(id: string): RuleKey {
  const [kind, ...key] = id.split('.')
  const known = RULE_KINDS.find(one => one === kind)
  if (known === undefined) throw new Failure('not-found')
  return { kind: known, key: key.join('.') }
}

/** The address of a season of a species: "swift.migration". */
export function seasonIdOf({ species, kind }: SeasonKey): string {
  return `${species}.${kind}`
}

type SeasonKey = { readonly species: string; readonly kind: (typeof SEASON_KINDS)[number] }

/** The season that an address names; one that names none is not found. */
export function seasonKeyOf(id: string): SeasonKey {
  const [species, named] = id.split('.')
  const kind = SEASON_KINDS.find(one => one === named)
  if (!species || kind === undefined) throw new Failure('not-found')
  return { species, kind }
}

/** The stage of care that a field names; nothing where it names none. */
export function stageIn(form: FormInput, name: string): CareStage | undefined {
  return CARE_STAGES.find(stage => stage === form[name])
}

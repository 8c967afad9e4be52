import { z } from 'zod'
import { percentText } from '#lib/domain/form-rows.ts'
import {
  type Policy,
  PRESET_WEIGHTS,
  PRESETS,
  policyFields,
  presetWeightFields,
  type Weights,
} from '#lib/domain/policy.ts'
import { kmWeightWords, PRESET_SOURCE, presetWeightWords, presetWords } from '#lib/words/setup.ts'
import { POLICY_FORM } from '#lib/words/setup-form.ts'
import { number, type Part, said } from '../../_parts/spec.ts'

type Detail = Policy & Weights

/** What the policy settles: a preset in words with what it gives up, times and chances. */
export function policyParts(policy: Detail): Part[] {
  const field = (name: 'holdMinutes' | 'askLapseMinutes' | 'lateMinutes' | 'finderDays') =>
    number(name, policyFields[name], policy[name])
  return [
    {
      id: 'preset',
      head: POLICY_FORM.preset,
      note: `${POLICY_FORM.presetNote} ${PRESET_SOURCE}`,
      fields: [
        {
          kind: 'choices',
          name: 'preset',
          ...said(policyFields.preset),
          many: false,
          start: [policy.preset],
          choices: PRESETS.map(preset => {
            const { name, gives, givesUp } = presetWords(preset)
            const { kappa, omega } = PRESET_WEIGHTS[preset]
            return {
              value: preset,
              label: name,
              sub: `${gives}. ${POLICY_FORM.givesUp}: ${givesUp}. ${presetWeightWords(kappa, omega)}`,
            }
          }),
        },
      ],
    },
    {
      id: 'times',
      head: POLICY_FORM.times,
      fields: [
        {
          kind: 'text',
          name: 'tightChance',
          ...said(policyFields.tightChance),
          unit: '%',
          inputMode: 'decimal',
          start: z.encode(percentText, policy.tightChance),
        },
        field('holdMinutes'),
        field('askLapseMinutes'),
        field('lateMinutes'),
        field('finderDays'),
      ],
    },
  ]
}

/** The weights behind it, an administrator's to change. */
export function weightParts(policy: Detail): Part[] {
  const field = (name: Exclude<keyof Weights, 'kappa' | 'omega'>) =>
    number(name, policyFields[name], policy[name])
  return [
    {
      id: 'weights',
      head: POLICY_FORM.weights,
      note: POLICY_FORM.weightsNote,
      fields: [
        number('kappa', presetWeightFields.kappa, policy.kappa),
        number('omega', presetWeightFields.omega, policy.omega),
        field('transferPlaceDays'),
        { ...field('kmPerPlaceDay'), hint: kmWeightWords(policy.kmPerPlaceDay) },
        field('refusalPlaceDays'),
        field('redirectPlaceDays'),
        field('keepAdvicePlaceDays'),
        field('keepTomorrowPlaceDays'),
        field('keepTodayPlaceDays'),
      ],
    },
  ]
}

import { z } from 'zod'
import { percentText } from '#lib/domain/form-rows.ts'
import { type Policy, PRESETS, policyFields } from '#lib/domain/policy.ts'
import { kmWeightWords, PRESET_SOURCE, presetWords } from '#lib/words/setup.ts'
import { POLICY_FORM } from '#lib/words/setup-form.ts'
import { number, type Part, said } from '../../_parts/spec.ts'

/** What the policy settles: a preset in words, weights in place-days, times. */
export function policyParts(policy: Policy): Part[] {
  const field = (name: Exclude<keyof Policy, 'preset' | 'tightChance'>) =>
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
            return { value: preset, label: name, sub: `${gives}. ${POLICY_FORM.givesUp}: ${givesUp}` }
          }),
        },
      ],
    },
    {
      id: 'weights',
      head: POLICY_FORM.weights,
      note: POLICY_FORM.weightsNote,
      fields: [
        field('transferPlaceDays'),
        { ...field('kmPerPlaceDay'), hint: kmWeightWords(policy.kmPerPlaceDay) },
        field('refusalPlaceDays'),
        field('redirectPlaceDays'),
        field('keepAdvicePlaceDays'),
        field('keepTomorrowPlaceDays'),
        field('keepTodayPlaceDays'),
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
        field('finderDays'),
      ],
    },
  ]
}

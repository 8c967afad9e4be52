import { z } from 'zod'
import { markFieldOf, type StageValues } from '#lib/domain/care-plan-form.ts'
import { percentText } from '#lib/domain/form-rows.ts'
import { CARE_STAGES, HOUSING_TYPES } from '#lib/domain/housing.ts'
import { housingWords, stageWords } from '#lib/words/care.ts'
import { markWords } from '#lib/words/mark.ts'
import { SETUP_PAGE } from '#lib/words/setup-page.ts'
import { GATE_FORM, STAGE_FORM } from '#lib/words/setup-plan.ts'
import type { FieldSpec, Part } from '../../_parts/spec.ts'

type Numbers = {
  [Key in keyof StageValues]: StageValues[Key] extends number | null ? Key : never
}[keyof StageValues]
type Words = {
  [Key in keyof StageValues]: StageValues[Key] extends string | null ? Key : never
}[keyof StageValues]

/** What is asked about one stage of a plan. */
export function stageParts(stage: StageValues | undefined): Part[] {
  const ask = asking(stage)
  return [
    {
      id: 'what',
      head: STAGE_FORM.what,
      fields: [
        ask.choice(
          'stage',
          STAGE_FORM.stage,
          CARE_STAGES.map(one => ({ value: one, text: stageWords(one) })),
        ),
        ask.choice(
          'housing',
          STAGE_FORM.housing,
          HOUSING_TYPES.map(one => ({ value: one, text: housingWords(one) })),
        ),
        ask.words('sizeNote', STAGE_FORM.sizeNote),
        ask.words('note', STAGE_FORM.note),
      ],
    },
    {
      id: 'length',
      head: STAGE_FORM.length,
      note: STAGE_FORM.lengthNote,
      fields: [
        ask.days('medianDays', STAGE_FORM.median),
        ask.days('p90Days', STAGE_FORM.p90),
        ask.words('waitsFor', STAGE_FORM.waitsFor),
        { ...ask.words('opens', STAGE_FORM.opens), hint: STAGE_FORM.opensHint },
        ask.words('closes', STAGE_FORM.closes),
        ask.days('minDays', STAGE_FORM.minDays),
        ask.days('lagMedianDays', STAGE_FORM.lagMedian),
        ask.days('lagP90Days', STAGE_FORM.lagP90),
      ],
    },
    {
      id: 'ends',
      head: STAGE_FORM.ends,
      note: STAGE_FORM.endsNote,
      fields: [
        ask.share('onward', STAGE_FORM.onward),
        ask.share('died', STAGE_FORM.died),
        ask.share('euthanased', STAGE_FORM.euthanased),
        ask.share('left', STAGE_FORM.left),
      ],
    },
    {
      id: 'times',
      head: STAGE_FORM.times,
      note: STAGE_FORM.timesNote,
      fields: [
        ask.days('diedMedianDays', STAGE_FORM.diedMedian),
        ask.days('diedP90Days', STAGE_FORM.diedP90),
        ask.days('euthanasedMedianDays', STAGE_FORM.euthanasedMedian),
        ask.days('euthanasedP90Days', STAGE_FORM.euthanasedP90),
      ],
    },
    {
      id: 'minutes',
      head: STAGE_FORM.minutes,
      fields: [ask.number('carerMinutesPerDay', STAGE_FORM.minutes, 'minutes a day')],
    },
    sources(ask),
  ]
}

function sources(ask: ReturnType<typeof asking>): Part {
  return {
    id: 'sources',
    head: STAGE_FORM.sources,
    note: STAGE_FORM.sourcesNote,
    fields: [
      ask.words('sizeMark', STAGE_FORM.sizeMark),
      ask.words('lengthsMark', STAGE_FORM.lengthsMark),
      ask.words('sharesMark', STAGE_FORM.sharesMark),
      ask.words('exitTimesMark', STAGE_FORM.exitTimesMark),
      ask.words('minutesMark', STAGE_FORM.minutesMark),
    ],
  }
}

function asking(stage: StageValues | undefined) {
  /** Where a number comes from, in words beside it. */
  const source = (name: keyof StageValues) => {
    const field = markFieldOf(name)
    const isSaid = stage !== undefined && stage[name] !== null
    return isSaid && field !== undefined ? { hint: markWords(stage[field]) } : {}
  }
  const number = (name: Numbers, label: string, unit: string): FieldSpec => {
    const value = stage?.[name]
    return {
      kind: 'text',
      name,
      label,
      unit,
      inputMode: 'decimal',
      ...source(name),
      start: value === undefined || value === null ? '' : String(value),
    }
  }
  return {
    number,
    days: (name: Numbers, label: string) => number(name, label, GATE_FORM.days),
    share: (name: 'onward' | 'died' | 'euthanased' | 'left', label: string): FieldSpec => ({
      kind: 'text',
      name,
      label,
      unit: '%',
      inputMode: 'decimal',
      ...source(name),
      start: stage === undefined ? '' : z.encode(percentText, stage[name]),
    }),
    words: (name: Words, label: string): FieldSpec => ({
      kind: 'text',
      name,
      label,
      start: stage?.[name] ?? '',
    }),
    choice: (
      name: 'stage' | 'housing',
      label: string,
      options: readonly { readonly value: string; readonly text: string }[],
    ): FieldSpec => ({
      kind: 'select',
      name,
      label,
      options,
      none: SETUP_PAGE.choose,
      start: stage?.[name] ?? '',
    }),
  }
}

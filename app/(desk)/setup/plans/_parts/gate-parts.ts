import { CHECKERS, GATE_ANCHORS, GATE_BARS } from '#lib/domain/care-plan.ts'
import type { GateValues } from '#lib/domain/care-plan-form.ts'
import type { CareStage } from '#lib/domain/housing.ts'
import { barWords, checkerWords, stageWords } from '#lib/words/care.ts'
import { SETUP_PAGE } from '#lib/words/setup-page.ts'
import { anchorWords, GATE_FORM } from '#lib/words/setup-plan.ts'
import type { FieldSpec, Part } from '../../_parts/spec.ts'

/** What is asked about one check of a plan. */
export function gateParts(gate: GateValues | undefined, stages: readonly CareStage[]): Part[] {
  const line = (name: 'check' | 'what' | 'mark' | 'note', label: string): FieldSpec => ({
    kind: 'text',
    name,
    label,
    start: gate?.[name] ?? '',
  })
  const days = (name: 'offsetDays' | 'intervalDays', label: string): FieldSpec => {
    const value = gate?.[name] ?? null
    const start = value === null ? '' : String(value)
    return { kind: 'text', name, label, unit: GATE_FORM.days, inputMode: 'numeric', start }
  }
  return [
    {
      id: 'check-part',
      head: GATE_FORM.head,
      fields: [
        {
          kind: 'select',
          name: 'stage',
          label: GATE_FORM.stage,
          start: gate?.stage ?? '',
          none: SETUP_PAGE.choose,
          options: stages.map(stage => ({ value: stage, text: stageWords(stage) })),
        },
        { ...line('check', GATE_FORM.check), hint: GATE_FORM.checkHint },
        line('what', GATE_FORM.what),
        {
          kind: 'select',
          name: 'who',
          label: GATE_FORM.who,
          start: gate?.who ?? 'carer',
          options: CHECKERS.map(who => ({ value: who, text: checkerWords(who) })),
        },
        {
          kind: 'select',
          name: 'requiredFor',
          label: GATE_FORM.requiredFor,
          start: gate?.requiredFor ?? '',
          none: GATE_FORM.bars,
          options: GATE_BARS.map(bar => ({ value: bar, text: barWords(bar) })),
        },
      ],
    },
    {
      id: 'when',
      head: GATE_FORM.when,
      note: GATE_FORM.whenNote,
      fields: [
        days('offsetDays', GATE_FORM.offset),
        {
          kind: 'select',
          name: 'anchor',
          label: GATE_FORM.anchor,
          start: gate?.anchor ?? 'stage start',
          options: GATE_ANCHORS.map(anchor => ({ value: anchor, text: anchorWords(anchor) })),
        },
        days('intervalDays', GATE_FORM.interval),
        line('mark', GATE_FORM.mark),
        line('note', GATE_FORM.note),
      ],
    },
  ]
}

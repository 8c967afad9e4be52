'use client'

import { ChoiceGroup, TickBox } from '#app/_ui/choice.tsx'
import { SelectField, TextAreaField, TextField } from '#app/_ui/field.tsx'
import { typedText, typedTick } from '#lib/web/form.ts'
import type { FormState } from '#lib/web/form-state.ts'
import { BoxesView } from './boxes-view.tsx'
import { RowsView } from './rows-view.tsx'
import type { FieldSpec } from './spec.ts'

type Props = { readonly spec: FieldSpec; readonly state: FormState }

/** One question of a form, with what was typed and what was wrong with it. */
export function FieldView({ spec, state }: Props) {
  const { name, label, hint } = spec
  const frame = { name, label, error: state.fieldErrors[name], ...(hint !== undefined && { hint }) }
  switch (spec.kind) {
    case 'text': {
      const { type, inputMode, autoComplete, unit } = spec
      return (
        <TextField
          {...frame}
          {...(type && { type })}
          {...(inputMode && { inputMode })}
          {...(unit !== undefined && { unit })}
          autoComplete={autoComplete ?? 'off'}
          defaultValue={typedText(state.values, name, spec.start)}
        />
      )
    }
    case 'area':
      return <TextAreaField {...frame} defaultValue={typedText(state.values, name, spec.start)} />
    case 'tick':
      return <TickView spec={spec} state={state} />
    case 'select': {
      const chosen = typedText(state.values, name, spec.start)
      // A select keeps its first default when React resets the form: a new key makes it anew.
      return (
        <SelectField
          {...frame}
          key={`${name}:${chosen}`}
          options={spec.options}
          {...(spec.none !== undefined && { none: spec.none })}
          defaultValue={chosen}
        />
      )
    }
    case 'choices':
      return <ChoicesView spec={spec} state={state} />
    case 'boxes':
      return <BoxesView spec={spec} state={state} />
    case 'rows':
      return <RowsView spec={spec} state={state} />
  }
}

function TickView({ spec, state }: Props & { spec: Extract<FieldSpec, { kind: 'tick' }> }) {
  const isTicked = typedTick(state.values, spec.name, spec.start)
  return (
    <TickBox
      key={`${spec.name}:${isTicked}`}
      name={spec.name}
      label={spec.label}
      {...(spec.hint !== undefined && { sub: spec.hint })}
      checked={isTicked}
    />
  )
}

function ChoicesView({ spec, state }: Props & { spec: Extract<FieldSpec, { kind: 'choices' }> }) {
  const { name, label, hint } = spec
  const chosen = state.status === 'fresh' ? spec.start : (state.values[name] ?? [])
  return (
    <ChoiceGroup
      key={`${name}:${chosen.join()}`}
      name={name}
      kind={spec.many ? 'many' : 'one'}
      legend={label}
      choices={spec.choices}
      chosen={chosen}
      columns={spec.columns ?? 1}
      {...(hint !== undefined && { hint })}
      error={state.fieldErrors[name] ?? state.fieldErrors[name.replace('[]', '')]}
    />
  )
}

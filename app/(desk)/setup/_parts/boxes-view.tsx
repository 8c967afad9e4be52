'use client'

import { describedBy, FieldNotes, TextField } from '#app/_ui/field.tsx'
import { typedText } from '#lib/web/form.ts'
import type { FormState } from '#lib/web/form-state.ts'
import type { FieldSpec } from './spec.ts'

type Spec = Extract<FieldSpec, { kind: 'boxes' }>
type Box = Spec['boxes'][number]

/** Many numbers under one heading; those that start empty may be folded away. */
export function BoxesView({ spec, state }: { readonly spec: Spec; readonly state: FormState }) {
  const error = state.fieldErrors[spec.name]
  const hasAny = spec.boxes.some(box => box.start !== '')
  const isOpen = (box: Box) => spec.fold === undefined || !hasAny || box.start !== ''
  const folded = spec.boxes.filter(box => !isOpen(box))
  const hasFilled = folded.some(box => typedText(state.values, box.name) !== '')
  return (
    <fieldset id={spec.name} aria-describedby={describedBy(spec.name, spec.hint, error)}>
      <legend>{spec.label}</legend>
      <div>
        <FieldNotes id={spec.name} hint={spec.hint} error={error} />
        <BoxList boxes={spec.boxes.filter(isOpen)} spec={spec} state={state} />
        {folded.length > 0 && (
          <details className="astable" open={hasFilled}>
            <summary>{spec.fold}</summary>
            <BoxList boxes={folded} spec={spec} state={state} />
          </details>
        )}
      </div>
    </fieldset>
  )
}

function BoxList(props: { readonly boxes: readonly Box[]; readonly spec: Spec; readonly state: FormState }) {
  const { boxes, spec, state } = props
  return (
    <div className="boxes">
      {boxes.map(box => (
        <TextField
          key={box.name}
          name={box.name}
          label={box.label}
          inputMode="decimal"
          autoComplete="off"
          {...(spec.unit !== undefined && { unit: spec.unit })}
          defaultValue={typedText(state.values, box.name, box.start)}
          error={state.fieldErrors[box.name]}
        />
      ))}
    </div>
  )
}

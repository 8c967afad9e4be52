'use client'

import { describedBy, FieldNotes, SelectField, TextField } from '#app/_ui/field.tsx'
import { typedText } from '#lib/web/form.ts'
import type { FormState } from '#lib/web/form-state.ts'
import type { Cell, FieldSpec } from './spec.ts'

type Spec = Extract<FieldSpec, { kind: 'rows' }>

/** Lines of one kind: those there are, and a few empty ones for more. */
export function RowsView({ spec, state }: { readonly spec: Spec; readonly state: FormState }) {
  const error = state.fieldErrors[spec.name]
  const count = spec.start.length + spec.empty
  return (
    <fieldset id={spec.name} aria-describedby={describedBy(spec.name, spec.hint, error)}>
      <legend>{spec.label}</legend>
      <div>
        <FieldNotes id={spec.name} hint={spec.hint} error={error} />
        {Array.from({ length: count }, (_, at) => `${spec.name}.${at}`).map((line, at) => (
          <div key={line} className="line" data-cells={spec.cells.length}>
            {spec.cells.map(cell => (
              <CellView key={cell.key} cell={cell} line={line} start={spec.start[at]} state={state} />
            ))}
          </div>
        ))}
      </div>
    </fieldset>
  )
}

function CellView(props: {
  readonly cell: Cell
  readonly line: string
  readonly start: Readonly<Record<string, string>> | undefined
  readonly state: FormState
}) {
  const { cell, line, start, state } = props
  const name = `${line}.${cell.key}`
  const typed = typedText(state.values, name, start?.[cell.key] ?? '')
  const error = state.fieldErrors[name]
  if (cell.options === undefined) {
    return (
      <TextField
        name={name}
        label={cell.label}
        autoComplete="off"
        {...(cell.inputMode && { inputMode: cell.inputMode })}
        defaultValue={typed}
        error={error}
      />
    )
  }
  return (
    <SelectField
      key={`${name}:${typed}`}
      name={name}
      label={cell.label}
      options={cell.options}
      none=""
      defaultValue={typed}
      error={error}
    />
  )
}

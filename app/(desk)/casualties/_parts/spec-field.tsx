import { ChoiceGroup } from '#app/_ui/choice.tsx'
import { FileField, SelectField, TextAreaField, TextField } from '#app/_ui/field.tsx'
import { typedList, typedText } from '#lib/web/form.ts'
import type { FormState } from '#lib/web/form-state.ts'
import type { FieldSpec } from './field-spec.ts'

type Props = { readonly spec: FieldSpec; readonly state: FormState; readonly formId: string }

/** A field with what was typed, else with what it starts with, and what is wrong with it. */
export function SpecField({ spec, state, formId }: Props) {
  if (spec.kind === 'two') {
    return (
      <fieldset className="act-two">
        <legend>{spec.legend}</legend>
        <div className="two">
          {spec.fields.map(one => (
            <SpecField key={one.name} spec={one} state={state} formId={formId} />
          ))}
        </div>
      </fieldset>
    )
  }
  const { name, label, hint, start = '' } = spec
  const frame = { name, id: `${formId}-${name}`, label, hint, error: state.fieldErrors[name] }
  const typed = typedText(state.values, name, start)
  switch (spec.kind) {
    case 'words':
      return <TextAreaField {...frame} defaultValue={typed} />
    case 'time':
      return <TextField {...frame} type="datetime-local" defaultValue={typed} />
    case 'date':
      return <TextField {...frame} type="date" defaultValue={typed} />
    case 'number':
      return (
        <TextField
          {...frame}
          inputMode="decimal"
          {...(spec.unit !== undefined && { unit: spec.unit })}
          defaultValue={typed}
        />
      )
    case 'picture':
      return <FileField {...frame} accept="image/jpeg,image/png,image/webp" required />
    case 'select':
      return (
        <SelectField
          key={typed}
          {...frame}
          options={spec.options}
          defaultValue={typed}
          {...(spec.none !== undefined && { none: spec.none })}
        />
      )
    case 'one':
    case 'many':
      return (
        <ChoiceGroup
          name={name}
          id={frame.id}
          legend={label}
          hint={hint}
          error={frame.error}
          kind={spec.kind}
          columns={spec.columns ?? 1}
          choices={spec.choices}
          chosen={typedList(state.values, name, start === '' ? [] : [start])}
        />
      )
    default:
      return <TextField {...frame} defaultValue={typed} />
  }
}

import type { ComponentProps, ReactNode } from 'react'

/** What every field has around its native control. `name` is also its id unless `id` is given. */
export type FieldFrame = {
  readonly name: string
  readonly id?: string | undefined
  readonly label: ReactNode
  readonly hint?: ReactNode
  /** What is wrong, in words; ties itself to the control and marks it. */
  readonly error?: string | undefined
}

type Kept = 'name' | 'id' | 'className' | 'aria-describedby' | 'aria-invalid'

/** The ids of hint and error, in the order they are read. */
export function describedBy(id: string, hint: ReactNode, error: string | undefined): string | undefined {
  const ids = [error === undefined ? '' : `${id}-error`, hint === undefined ? '' : `${id}-hint`].filter(
    Boolean,
  )
  return ids.length === 0 ? undefined : ids.join(' ')
}

export function FieldNotes({
  id,
  hint,
  error,
}: {
  id: string
  hint?: ReactNode
  error?: string | undefined
}) {
  return (
    <>
      {error !== undefined && (
        <p className="err" id={`${id}-error`}>
          {error}
        </p>
      )}
      {hint !== undefined && (
        <div className="hint" id={`${id}-hint`}>
          {hint}
        </div>
      )}
    </>
  )
}

function controlProps({ name, id = name, hint, error }: FieldFrame) {
  return {
    name,
    id,
    'aria-describedby': describedBy(id, hint, error),
    'aria-invalid': error === undefined ? undefined : true,
  }
}

function Frame({ frame, children }: { frame: FieldFrame; children: ReactNode }) {
  const id = frame.id ?? frame.name
  return (
    <div className="fld">
      <label htmlFor={id}>{frame.label}</label>
      {children}
      <FieldNotes id={id} hint={frame.hint} error={frame.error} />
    </div>
  )
}

export type TextFieldProps = FieldFrame &
  Omit<ComponentProps<'input'>, Kept> & {
    /** Written after the box: "km", "g". */
    readonly unit?: string
  }

export function TextField({ name, id, label, hint, error, unit, ...native }: TextFieldProps) {
  const frame = { name, id, label, hint, error }
  const input = <input type="text" {...native} {...controlProps(frame)} />
  return (
    <Frame frame={frame}>
      {unit === undefined ? (
        input
      ) : (
        <div className="unit">
          {input}
          <span>{unit}</span>
        </div>
      )}
    </Frame>
  )
}

export type FileFieldProps = FieldFrame & Omit<ComponentProps<'input'>, Kept | 'type'>

export function FileField({ name, id, label, hint, error, ...native }: FileFieldProps) {
  const frame = { name, id, label, hint, error }
  return (
    <Frame frame={frame}>
      <input {...native} {...controlProps(frame)} type="file" />
    </Frame>
  )
}

export type TextAreaFieldProps = FieldFrame & Omit<ComponentProps<'textarea'>, Kept>

export function TextAreaField({ name, id, label, hint, error, ...native }: TextAreaFieldProps) {
  const frame = { name, id, label, hint, error }
  return (
    <Frame frame={frame}>
      <textarea {...native} {...controlProps(frame)} />
    </Frame>
  )
}

export type SelectOption = { readonly value: string; readonly text: string; readonly group?: string }
export type SelectFieldProps = FieldFrame &
  Omit<ComponentProps<'select'>, Kept | 'children'> & {
    readonly options: readonly SelectOption[]
    /** The first line when nothing is chosen; its value is "". */
    readonly none?: string
  }

export function SelectField({ name, id, label, hint, error, options, none, ...native }: SelectFieldProps) {
  const frame = { name, id, label, hint, error }
  const groups = [...new Set(options.map(option => option.group))]
  const lines = (group: string | undefined) =>
    options
      .filter(option => option.group === group)
      .map(option => (
        <option key={option.value} value={option.value}>
          {option.text}
        </option>
      ))
  return (
    <Frame frame={frame}>
      <select {...native} {...controlProps(frame)}>
        {none !== undefined && <option value="">{none}</option>}
        {groups.map(group =>
          group === undefined ? (
            lines(group)
          ) : (
            <optgroup key={group} label={group}>
              {lines(group)}
            </optgroup>
          ),
        )}
      </select>
    </Frame>
  )
}

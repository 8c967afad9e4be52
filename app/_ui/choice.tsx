import type { ReactNode } from 'react'
import { describedBy, FieldNotes } from './field.tsx'

export type Choice = {
  readonly value: string
  readonly label: ReactNode
  /** A second, quiet line. */
  readonly sub?: ReactNode
  readonly disabled?: boolean
}

export type ChoiceGroupProps = {
  readonly name: string
  /** Where one page asks the same several times; else the name. */
  readonly id?: string | undefined
  readonly legend: ReactNode
  /** Beside the legend, quiet: "choose all that fit". */
  readonly aside?: ReactNode
  /** `many` draws boxes, `one` draws rings. */
  readonly kind: 'many' | 'one'
  readonly choices: readonly Choice[]
  readonly chosen?: readonly string[]
  readonly hint?: ReactNode
  readonly error?: string | undefined
  /** Columns on a wide screen (a phone shows two at most); `row` sets them side by side. */
  readonly columns?: 1 | 2 | 3 | 'row'
  /** The id of the form it belongs to, where it stands outside. */
  readonly form?: string | undefined
}

/** Boxes or rings as ruled lines under one legend. */
export function ChoiceGroup(props: ChoiceGroupProps) {
  const { name, id = name, kind, columns = 1, hint, error } = props
  const className =
    columns === 'row' ? 'ticks row' : columns === 1 ? 'ticks' : `ticks wide-cols cols-${columns}`
  return (
    <fieldset id={id} aria-describedby={describedBy(id, hint, error)}>
      <legend>
        {props.legend}
        {props.aside !== undefined && <small>{props.aside}</small>}
      </legend>
      <div className={className}>
        {props.choices.map(choice => (
          <Tick
            key={choice.value}
            name={name}
            kind={kind}
            form={props.form}
            chosen={props.chosen}
            choice={choice}
          />
        ))}
      </div>
      <FieldNotes id={id} hint={hint} error={error} />
    </fieldset>
  )
}

type TickProps = {
  readonly name: string
  readonly kind: 'many' | 'one'
  readonly form: string | undefined
  readonly chosen: readonly string[] | undefined
  readonly choice: Choice
}

function Tick({ name, kind, form, chosen, choice }: TickProps) {
  return (
    <label>
      <input
        type={kind === 'many' ? 'checkbox' : 'radio'}
        name={name}
        value={choice.value}
        form={form}
        disabled={choice.disabled}
        defaultChecked={chosen?.includes(choice.value) ?? false}
      />
      <span>
        {choice.label}
        {choice.sub !== undefined && <span className="sub">{choice.sub}</span>}
      </span>
    </label>
  )
}

export type TickBoxProps = {
  readonly name: string
  readonly label: ReactNode
  readonly sub?: ReactNode
  readonly checked?: boolean
  readonly value?: string
}

/** One box alone, such as "heated". */
export function TickBox({ name, label, sub, checked = false, value = 'on' }: TickBoxProps) {
  const choice = { value, label, ...(sub === undefined ? {} : { sub }) }
  return (
    <div className="ticks">
      <Tick name={name} kind="many" form={undefined} chosen={checked ? [value] : []} choice={choice} />
    </div>
  )
}

'use client'

import { createContext, type ReactNode, useActionState, useContext, useRef, useState } from 'react'
import { Button } from '#app/_ui/button.tsx'
import { Notice } from '#app/_ui/notice.tsx'
import { useRefusedFocus } from '#app/_ui/use-refused-focus.ts'
import { type FormState, FRESH } from '#lib/web/form-state.ts'
import { TAP } from '#lib/words/round-entry.ts'
import { tapped } from '../actions.ts'

/** A button of a line: what it sends, and its words. */
export type TapButton = { readonly tap: string; readonly text: string }

export type PlaceGroup = {
  readonly room: string
  readonly places: readonly { readonly id: number; readonly name: string }[]
}

/** The enclosures of the centre, which every line offers. */
const Places = createContext<readonly PlaceGroup[]>([])

export function PlacesOfCentre(props: {
  readonly places: readonly PlaceGroup[]
  readonly children: ReactNode
}) {
  return <Places value={props.places}>{props.children}</Places>
}

export type LineProps = {
  readonly id: number
  /** Where the line is open without JavaScript, and whether it is. */
  readonly href: string
  readonly startsOpen: boolean
  readonly note: string | undefined
  readonly words: ReactNode
  readonly panel: PanelProps
}

/** An animal's line: a tap opens it, the next says what was found. */
export function RoundLine({ id, href, startsOpen, note, words, panel }: LineProps) {
  const [isOpen, setOpen] = useState(startsOpen)
  return (
    <>
      <a
        className="walk-line opens"
        href={href}
        aria-expanded={isOpen}
        onClick={event => {
          event.preventDefault()
          setOpen(!isOpen)
        }}
      >
        {words}
      </a>
      {isOpen && note !== undefined && <p className="small">{note}</p>}
      {isOpen && <Panel id={id} {...panel} />}
    </>
  )
}

export type PanelProps = {
  /** Sent along unseen: where, who, and what the page showed. */
  readonly hidden: Readonly<Record<string, string>>
  readonly card: string
  readonly checks: readonly {
    readonly id: number
    readonly text: string
    readonly taps: readonly TapButton[]
  }[]
  readonly lastWeight: string | undefined
  readonly stage: TapButton | undefined
  readonly best: readonly TapButton[]
  readonly out: readonly TapButton[]
}

function Panel({
  id,
  hidden,
  card,
  checks,
  lastWeight,
  stage,
  best,
  out,
}: PanelProps & { readonly id: number }) {
  const [state, run, isPending] = useActionState(tapped, FRESH)
  const form = useRef<HTMLFormElement>(null)
  useRefusedFocus(form, state)
  const button = ({ tap, text }: TapButton) => (
    <Button key={tap} name="tap" value={tap} disabled={isPending}>
      {text}
    </Button>
  )
  return (
    <form ref={form} action={run} className="taps-of-line" data-tap>
      <Refused state={state} />
      {Object.entries(hidden).map(([name, value]) => (
        <input key={name} type="hidden" name={name} value={value} />
      ))}
      <Group head={TAP.weight} note={lastWeight}>
        <label className="vh" htmlFor={`grams-${id}`}>
          {TAP.grams}
        </label>
        <input
          id={`grams-${id}`}
          name="grams"
          inputMode="decimal"
          autoComplete="off"
          placeholder="g"
          defaultValue={state.values['grams']?.at(-1) ?? ''}
          aria-invalid={state.fieldErrors['grams'] !== undefined}
        />
        {button({ tap: 'weight', text: TAP.save })}
      </Group>
      {checks.map(check => (
        <Group key={check.id} head={check.text}>
          {check.taps.map(button)}
          {check.taps.length === 0 && (
            <a className="btn plain" href={card}>
              {TAP.onCard}
            </a>
          )}
        </Group>
      ))}
      {stage !== undefined && <Group head={TAP.stage}>{button(stage)}</Group>}
      <Group head={TAP.moved}>
        {best.map(button)}
        <OtherPlace id={id} state={state} />
        {button({ tap: 'moved', text: TAP.movedThere })}
        {button({ tap: 'moved nowhere', text: TAP.inBuilding })}
      </Group>
      <Group head={TAP.out} note={TAP.outNote}>
        {out.map(button)}
      </Group>
      <Group head={TAP.notThere} note={TAP.notThereNote}>
        {button({ tap: 'not-there', text: TAP.notThere })}
        <a className="btn plain" href={card}>
          {TAP.card}
        </a>
      </Group>
    </form>
  )
}

function OtherPlace({ id, state }: { readonly id: number; readonly state: FormState }) {
  const places = useContext(Places)
  return (
    <>
      <label className="vh" htmlFor={`place-${id}`}>
        {TAP.elsewhere}
      </label>
      <select
        id={`place-${id}`}
        name="enclosureId"
        defaultValue={state.values['enclosureId']?.at(-1) ?? ''}
        aria-invalid={state.fieldErrors['enclosureId'] !== undefined}
      >
        <option value="">{TAP.elsewhere}</option>
        {places.map(group => (
          <optgroup key={group.room} label={group.room}>
            {group.places.map(place => (
              <option key={place.id} value={place.id}>
                {place.name}
              </option>
            ))}
          </optgroup>
        ))}
      </select>
    </>
  )
}

function Refused({ state }: { readonly state: FormState }) {
  if (state.message === undefined) return null
  const fields = Object.values(state.fieldErrors).join('. ')
  return (
    <Notice
      inside
      kind="check-this"
      role="alert"
      sentence={state.message}
      kept={fields === '' ? state.next : `${fields}. ${state.next ?? ''}`}
    />
  )
}

type GroupProps = {
  readonly head: string
  readonly note?: string | undefined
  readonly children: ReactNode
}

function Group({ head, note, children }: GroupProps) {
  return (
    <fieldset>
      <legend>{head}</legend>
      {note !== undefined && <p className="small">{note}</p>}
      <div className="taps">{children}</div>
    </fieldset>
  )
}

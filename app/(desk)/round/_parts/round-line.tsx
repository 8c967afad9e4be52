'use client'

import { createContext, type ReactNode, useContext, useState } from 'react'
import { Button } from '#app/_ui/button.tsx'
import type { FormState } from '#lib/web/form-state.ts'
import { OFFLINE } from '#lib/words/offline.ts'
import { TAP } from '#lib/words/round-entry.ts'
import { useTaps } from './round-queue.tsx'
import { TapForm } from './tap-form.tsx'

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
  const waiting = useTaps()?.taps.filter(
    tap => tap.fields['casualtyId'] === String(id) && tap.refused === undefined,
  )
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
        {waiting !== undefined && waiting.length > 0 && <b className="asked">{OFFLINE.waitsShort}</b>}
      </a>
      {isOpen && note !== undefined && <p className="small">{note}</p>}
      {isOpen && <Panel id={id} {...panel} onSent={() => setOpen(false)} />}
    </>
  )
}

export type PanelProps = {
  /** Sent along unseen: where, who, and what the page showed. */
  readonly hidden: Readonly<Record<string, string>>
  /** Whom it is about. */
  readonly about: string
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

type OpenPanel = PanelProps & { readonly id: number; readonly onSent: () => void }

function Panel({ about, hidden, onSent, ...rest }: OpenPanel) {
  return (
    <TapForm hidden={hidden} about={about} onSent={onSent} className="taps-of-line">
      {(state, isPending) => <Taps {...rest} state={state} isPending={isPending} />}
    </TapForm>
  )
}

type TapsProps = Omit<OpenPanel, 'about' | 'hidden' | 'onSent'> & {
  readonly state: FormState
  readonly isPending: boolean
}

function Taps({ id, card, checks, lastWeight, stage, best, out, state, isPending }: TapsProps) {
  const button = ({ tap, text }: TapButton) => (
    <Button key={tap} name="tap" value={tap} disabled={isPending}>
      {text}
    </Button>
  )
  return (
    <>
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
    </>
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

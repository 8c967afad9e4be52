'use client'

import { useActionState, useRef } from 'react'
import { Actions, Button } from '#app/_ui/button.tsx'
import { ChoiceGroup } from '#app/_ui/choice.tsx'
import { Notice } from '#app/_ui/notice.tsx'
import { Section } from '#app/_ui/section.tsx'
import { useRefusedFocus } from '#app/_ui/use-refused-focus.ts'
import type { FieldSpec } from '#app/(desk)/casualties/_parts/field-spec.ts'
import { SpecField } from '#app/(desk)/casualties/_parts/spec-field.tsx'
import { type FormState, FRESH } from '#lib/web/form-state.ts'
import { legWords, ROAD } from '#lib/words/road.ts'

type Props = {
  readonly action: (before: FormState, data: FormData) => Promise<FormState>
  readonly animals: readonly { readonly value: string; readonly label: string }[]
  readonly first: string
  readonly about: readonly FieldSpec[]
  readonly legs: readonly (readonly FieldSpec[])[]
}

/** A journey on one form: who goes, where to, a fieldset a leg. Works before any JavaScript. */
export function PlanForm({ action, animals, first, about, legs }: Props) {
  const [state, run, isPending] = useActionState(action, FRESH)
  const form = useRef<HTMLFormElement>(null)
  useRefusedFocus(form, state)
  const going = state.status === 'fresh' ? [first] : (state.values['animals[]'] ?? [])
  return (
    <form ref={form} action={run} className="setup-form">
      {state.message !== undefined && (
        <Notice kind="check-this" role="alert" sentence={state.message} kept={state.next} />
      )}
      <Section id="who" head={ROAD.planHead} note={ROAD.planNote} strong>
        <div className="form">
          <ChoiceGroup
            key={going.join()}
            name="animals[]"
            kind="many"
            legend={ROAD.animals}
            columns={2}
            choices={animals}
            chosen={going}
            error={state.fieldErrors['animals'] ?? state.fieldErrors['animals[]']}
          />
          {about.map(spec => (
            <SpecField key={spec.name} spec={spec} state={state} formId="plan" />
          ))}
        </div>
      </Section>
      <Section id="legs" head={ROAD.planLegs} note={ROAD.planLegsNote}>
        {legs.map((fields, at) => (
          <fieldset key={fields[0]?.name} className="form leg">
            <legend>{legWords(at + 1)}</legend>
            {fields.map(spec => (
              <SpecField key={spec.name} spec={spec} state={state} formId="plan" />
            ))}
          </fieldset>
        ))}
      </Section>
      <div className="setup-do">
        <Actions>
          <Button weight="filled" disabled={isPending}>
            {ROAD.keep}
          </Button>
        </Actions>
      </div>
    </form>
  )
}

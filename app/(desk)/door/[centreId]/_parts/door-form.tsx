'use client'

import { useActionState, useRef } from 'react'
import { Actions, Button } from '#app/_ui/button.tsx'
import { ChoiceGroup } from '#app/_ui/choice.tsx'
import { SelectField, type SelectOption, TextAreaField, TextField } from '#app/_ui/field.tsx'
import { Notice } from '#app/_ui/notice.tsx'
import { useRefusedFocus } from '#app/_ui/use-refused-focus.ts'
import { ANIMAL_TYPED_MAX, NOTES_MAX, WHERE_TYPED_MAX, WRONG_TYPED_MAX } from '#lib/domain/call-limits.ts'
import { AGES } from '#lib/domain/species.ts'
import { typedText } from '#lib/web/form.ts'
import { type FormState, FRESH } from '#lib/web/form-state.ts'
import { ageWords } from '#lib/words/call.ts'
import { DOOR } from '#lib/words/door.ts'

type Props = {
  readonly action: (before: FormState, data: FormData) => Promise<FormState>
  readonly centreId: number
  readonly animalNames: readonly string[]
  readonly looks: readonly SelectOption[]
  readonly enclosures: readonly SelectOption[]
}

/** Three fields and a button; the rest is folded away and may stay empty. */
export function DoorForm({ action, centreId, animalNames, looks, enclosures }: Props) {
  const [state, run, isPending] = useActionState(action, FRESH)
  const form = useRef<HTMLFormElement>(null)
  useRefusedFocus(form, state)
  const typed = (name: string, start = '') => typedText(state.values, name, start)
  return (
    <form ref={form} action={run} className="door-form">
      {state.message !== undefined && (
        <Notice inside kind="check-this" role="alert" sentence={state.message} kept={state.next} />
      )}
      <input type="hidden" name="centreId" value={centreId} />
      <TextField
        name="animalTyped"
        label={DOOR.animal}
        hint={DOOR.animalHint}
        defaultValue={typed('animalTyped')}
        maxLength={ANIMAL_TYPED_MAX}
        list="animals"
        autoComplete="off"
        autoFocus
      />
      <datalist id="animals">
        {animalNames.map(name => (
          <option key={name} value={name} />
        ))}
      </datalist>
      <WhichAnimal state={state} looks={looks} />
      <TextField
        name="count"
        label={DOOR.count}
        inputMode="numeric"
        defaultValue={typed('count', '1')}
        maxLength={3}
        size={4}
        onFocus={event => event.currentTarget.select()}
      />
      <TextField
        name="wrongTyped"
        label={DOOR.wrong}
        hint={DOOR.wrongHint}
        defaultValue={typed('wrongTyped')}
        maxLength={WRONG_TYPED_MAX}
        autoComplete="off"
      />
      <Actions>
        <Button weight="filled" disabled={isPending}>
          {DOOR.take}
        </Button>
      </Actions>
      <More state={state} enclosures={enclosures} />
    </form>
  )
}

/** Asked only when the words name no single animal. */
function WhichAnimal({ state, looks }: Pick<Props, 'looks'> & { readonly state: FormState }) {
  const offered = offeredBy(state)
  if (state.rule !== 'which-animal') return null
  return (
    <>
      {offered.length > 0 && (
        <ChoiceGroup
          name="species"
          legend={DOOR.which}
          kind="one"
          chosen={[]}
          choices={offered.map(({ value, text }) => ({ value, label: text }))}
        />
      )}
      <SelectField
        name={offered.length > 0 ? 'looks' : 'species'}
        label={DOOR.looks}
        none={DOOR.looksNone}
        defaultValue={typedText(state.values, 'looks')}
        options={looks}
      />
    </>
  )
}

function More({ state, enclosures }: Pick<Props, 'enclosures'> & { readonly state: FormState }) {
  const typed = (name: string, start = '') => typedText(state.values, name, start)
  return (
    <details>
      <summary>{DOOR.more}</summary>
      <ChoiceGroup
        name="age"
        legend={DOOR.age}
        kind="one"
        columns="row"
        chosen={[typed('age', 'unknown')]}
        choices={AGES.map(age => ({ value: age, label: ageWords(age) }))}
      />
      <TextField
        name="whereTyped"
        label={DOOR.where}
        defaultValue={typed('whereTyped')}
        maxLength={WHERE_TYPED_MAX}
        autoComplete="off"
      />
      <SelectField
        name="enclosureId"
        label={DOOR.enclosure}
        none={DOOR.inBuilding}
        defaultValue={typed('enclosureId')}
        options={enclosures}
      />
      <TextAreaField
        name="note"
        label={DOOR.notes}
        defaultValue={typed('note')}
        maxLength={NOTES_MAX}
        rows={2}
      />
    </details>
  )
}

/** The animals that the typed words could mean, as the refusal carries them. */
function offeredBy({ data }: FormState): readonly SelectOption[] {
  const offered: unknown = data?.['offered']
  return Array.isArray(offered) ? (offered as SelectOption[]) : []
}

'use client'

import { useActionState } from 'react'
import { Button } from '#app/_ui/button.tsx'
import { SelectField } from '#app/_ui/field.tsx'
import { Notice } from '#app/_ui/notice.tsx'
import { Section } from '#app/_ui/section.tsx'
import { typedText } from '#lib/web/form.ts'
import { type FormState, FRESH } from '#lib/web/form-state.ts'
import { LEAVER } from '#lib/words/leaver.ts'
import { PERSON_FORM } from '#lib/words/setup-form.ts'
import { SETUP_PAGE } from '#lib/words/setup-page.ts'

type Heir = { readonly id: number; readonly name: string }
type Props = {
  readonly action: (before: FormState, data: FormData) => Promise<FormState>
  readonly id: number
  readonly version: number
  /** What she owes, in words, and who could take it over; nothing where she owes nothing. */
  readonly owed: { readonly words: string; readonly heirs: readonly Heir[] } | undefined
}

/** Switching somebody off: what she owes goes to another in the same moment. */
export function LeaverSection({ action, id, version, owed }: Props) {
  const [state, run] = useActionState(action, FRESH)
  const newest = state.data?.['version']
  // What came up between drawing the page and pressing the button is told with the refusal.
  const heirs = state.rule === 'duties-first' ? (state.data?.['heirs'] as readonly Heir[]) : owed?.heirs
  return (
    <Section id="switch" head={SETUP_PAGE.switching} note={PERSON_FORM.switchNote}>
      <form action={run} className="form">
        {state.message !== undefined ? (
          <Notice inside kind="check-this" role="alert" sentence={state.message} kept={state.next} />
        ) : (
          owed !== undefined && <p>{owed.words}.</p>
        )}
        <input type="hidden" name="id" value={id} />
        <input type="hidden" name="version" value={typeof newest === 'number' ? newest : version} />
        <input type="hidden" name="isActive" value="off" />
        {heirs !== undefined && heirs.length > 0 && (
          <SelectField
            name="passTo"
            id="leaver-passTo"
            label={LEAVER.to}
            hint={LEAVER.toHint}
            none={LEAVER.none}
            options={heirs.map(heir => ({ value: String(heir.id), text: heir.name }))}
            defaultValue={typedText(state.values, 'passTo')}
          />
        )}
        {heirs?.length === 0 ? (
          <p>{LEAVER.nobody}</p>
        ) : (
          <Button>{heirs === undefined ? SETUP_PAGE.switchOff : LEAVER.button}</Button>
        )}
      </form>
    </Section>
  )
}

'use client'

import { useActionState } from 'react'
import { Actions, Button } from '#app/_ui/button.tsx'
import { TextAreaField } from '#app/_ui/field.tsx'
import { Notice } from '#app/_ui/notice.tsx'
import { Section } from '#app/_ui/section.tsx'
import { typedText } from '#lib/web/form.ts'
import { type FormState, FRESH } from '#lib/web/form-state.ts'
import { PLACE_PAGE } from '#lib/words/setup-place.ts'

type Props = { readonly action: (before: FormState, data: FormData) => Promise<FormState> }

/** A table pasted or chosen: checked first, then taken in. A chosen file comes back as text, so nothing is lost. */
export function ImportForm({ action }: Props) {
  const [state, run] = useActionState(action, FRESH)
  return (
    <form action={run} className="setup-form">
      <Checked state={state} />
      <Section id="table" head={PLACE_PAGE.source} note={PLACE_PAGE.sourceNote} strong>
        <div className="form">
          <TextAreaField
            name="csv"
            label={PLACE_PAGE.paste}
            rows={12}
            spellCheck={false}
            defaultValue={typedText(state.values, 'csv')}
            error={state.fieldErrors['csv']}
          />
          <div className="fld">
            <label htmlFor="csv-file">{PLACE_PAGE.file}</label>
            <input
              type="file"
              id="csv-file"
              name="csv"
              accept=".csv,text/csv,text/plain"
              aria-describedby="csv-file-hint"
            />
            <div className="hint" id="csv-file-hint">
              {PLACE_PAGE.fileHint}
            </div>
          </div>
        </div>
      </Section>
      <div className="setup-do">
        <Actions>
          <Button weight="filled">{PLACE_PAGE.check}</Button>
        </Actions>
      </div>
    </form>
  )
}

function Checked({ state }: { readonly state: FormState }) {
  if (state.message === undefined) return null
  const complaints = state.data?.['complaints']
  const fingerprint = state.data?.['confirm']
  const lines = Array.isArray(complaints) ? complaints.map(String) : []
  return (
    <Notice
      kind="check-this"
      role="alert"
      sentence={state.message}
      kept={
        <>
          {lines.length > 0 && (
            <>
              <p>{PLACE_PAGE.complaints}</p>
              <ul className="lines">
                {lines.map(line => (
                  <li key={line}>{line}</li>
                ))}
              </ul>
            </>
          )}
          <p>{state.rule === 'import-checked' ? PLACE_PAGE.checked : state.next}</p>
        </>
      }
      todo={
        typeof fingerprint === 'string' ? (
          <Button name="confirm" value={fingerprint}>
            {PLACE_PAGE.take}
          </Button>
        ) : undefined
      }
    />
  )
}

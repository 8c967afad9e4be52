'use client'

import { useActionState, useRef } from 'react'
import { Actions, Button } from '#app/_ui/button.tsx'
import { Notice } from '#app/_ui/notice.tsx'
import { useRefusedFocus } from '#app/_ui/use-refused-focus.ts'
import type { FieldSpec } from '#app/(desk)/casualties/_parts/field-spec.ts'
import { SpecField } from '#app/(desk)/casualties/_parts/spec-field.tsx'
import { RELEASE_WAYS } from '#lib/domain/release.ts'
import { FRESH } from '#lib/web/form-state.ts'
import { RELEASE, wayWords } from '#lib/words/release.ts'
import { releasePlanned } from '../actions.ts'

type Choice = { readonly value: string; readonly label: string }
type Props = { readonly animals: readonly Choice[]; readonly chosen: readonly string[] }

const FIELDS: readonly FieldSpec[] = [
  { kind: 'time', name: 'at', label: RELEASE.at, hint: RELEASE.atHint },
  { kind: 'text', name: 'site', label: RELEASE.site, hint: RELEASE.siteHint },
  {
    kind: 'two',
    name: 'place',
    legend: RELEASE.degreesHint,
    fields: [
      { kind: 'text', name: 'latitude', label: RELEASE.latitude },
      { kind: 'text', name: 'longitude', label: RELEASE.longitude },
    ],
  },
  {
    kind: 'one',
    name: 'way',
    label: RELEASE.way,
    start: 'hard',
    choices: RELEASE_WAYS.map(value => ({ value, label: wayWords(value) })),
  },
  { kind: 'text', name: 'releaser', label: RELEASE.releaser },
]

/** Who goes together, when, where and how; refused with everything that stands against any of them. */
export function PlanForm({ animals, chosen }: Props) {
  const [state, run, isPending] = useActionState(releasePlanned, FRESH)
  const form = useRef<HTMLFormElement>(null)
  useRefusedFocus(form, state)
  const start = chosen[0]
  return (
    <form ref={form} action={run} className="act-form">
      {state.message !== undefined && (
        <Notice inside kind="check-this" role="alert" sentence={state.message} kept={state.next} />
      )}
      <SpecField
        spec={{
          kind: 'many',
          name: 'animals[]',
          label: RELEASE.choose,
          choices: animals,
          ...(start !== undefined && { start }),
        }}
        state={state}
        formId="release"
      />
      {FIELDS.map(spec => (
        <SpecField key={spec.name} spec={spec} state={state} formId="release" />
      ))}
      <Actions>
        <Button disabled={isPending}>{RELEASE.plan}</Button>
      </Actions>
    </form>
  )
}

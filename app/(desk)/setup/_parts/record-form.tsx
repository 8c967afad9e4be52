import type { FormState } from '#lib/web/form-state.ts'
import { SETUP_PAGE } from '#lib/words/setup-page.ts'
import { PartsAsFacts } from './parts-as-facts.tsx'
import { SetupForm } from './setup-form.tsx'
import type { Part } from './spec.ts'

type Props = {
  /** For showing only: the service asks once more. */
  readonly mayChange: boolean
  readonly action: (before: FormState, data: FormData) => Promise<FormState>
  readonly parts: readonly Part[]
  readonly id: string | number
  readonly version: number
  readonly here: string
  readonly hidden?: Readonly<Record<string, string>>
}

/** What is set up: a form for whoever may change it, facts for others. */
export function RecordForm({ mayChange, action, parts, id, version, here, hidden = {} }: Props) {
  if (!mayChange) return <PartsAsFacts parts={parts} />
  return (
    <SetupForm
      action={action}
      parts={parts}
      submit={SETUP_PAGE.save}
      hidden={{ ...hidden, id: String(id), version: String(version) }}
      here={here}
    />
  )
}

import { Section } from '#app/_ui/section.tsx'
import type { FormState } from '#lib/web/form-state.ts'
import { SETUP_PAGE } from '#lib/words/setup-page.ts'
import { OneButton } from './one-button.tsx'

type Props = {
  readonly action: (before: FormState, data: FormData) => Promise<FormState>
  readonly id: string | number
  readonly version: number
  readonly isActive: boolean
  /** What switching off means here, where it is more than usual. */
  readonly note?: string
}

/** Switching off, and on again: nothing is deleted. */
export function SwitchSection({ action, id, version, isActive, note = SETUP_PAGE.switchNote }: Props) {
  return (
    <Section id="switch" head={SETUP_PAGE.switching} note={note}>
      <OneButton
        action={action}
        text={isActive ? SETUP_PAGE.switchOff : SETUP_PAGE.switchOn}
        fields={{ id: String(id), version: String(version), isActive: isActive ? 'off' : 'on' }}
      />
    </Section>
  )
}

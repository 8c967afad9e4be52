import { Button } from '#app/_ui/button.tsx'
import { Notice } from '#app/_ui/notice.tsx'
import type { FormState } from '#lib/web/form-state.ts'
import { BREAKS } from '#lib/words/setup-refusal.ts'

/** Whether an answer is the list of what a change would break. */
export function asksFirst(state: FormState): boolean {
  return state.rule === 'breaks-current'
}

/** What the change would break, line by line, and the button that makes it all the same. Stands inside its form. */
export function Breaks({ state, inside = false }: { readonly state: FormState; readonly inside?: boolean }) {
  const lines = state.data?.['breaks']
  const fingerprint = state.data?.['confirm']
  if (!Array.isArray(lines) || typeof fingerprint !== 'string') return null
  return (
    <Notice
      id="breaks"
      inside={inside}
      kind="check-this"
      role="alert"
      sentence={state.message ?? BREAKS.head}
      kept={
        <>
          <ul className="lines">
            {lines.map(line => (
              <li key={String(line)}>{String(line)}</li>
            ))}
          </ul>
          <p>{BREAKS.kept}</p>
        </>
      }
      todo={
        <Button name="confirm" value={fingerprint}>
          {BREAKS.confirm}
        </Button>
      }
    />
  )
}

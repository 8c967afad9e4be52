'use client'

import { type RefObject, useEffect } from 'react'
import type { FormState } from '#lib/web/form-state.ts'

/** After a refusal, the first field that needs another look gets the focus. */
export function useRefusedFocus(form: RefObject<HTMLFormElement | null>, state: FormState): void {
  useEffect(() => {
    if (state.status !== 'refused' || state.focus === undefined) return
    const field = form.current?.elements.namedItem(state.focus)
    if (field instanceof HTMLElement) field.focus()
  }, [form, state])
}

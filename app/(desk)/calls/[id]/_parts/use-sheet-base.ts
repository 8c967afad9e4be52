import { type RefObject, useCallback, useEffect, useRef } from 'react'
import type { Keeping } from './use-keeping.ts'

type Form = RefObject<HTMLFormElement | null>
type Typed = HTMLInputElement | HTMLTextAreaElement

/**
 * Shows what others wrote on the sheet, and takes it as what the typist saw: only together, and only while her own
 * hand is off. Until then fields and `base` stay as they are, so the server merges field by field and loses nothing.
 * Returns what to call once she has let go.
 */
export function useSheetBase(
  form: Form,
  base: string,
  { isUnsent, settled }: Pick<Keeping, 'isUnsent' | 'settled'>,
): () => void {
  const newest = useRef(base)
  const apply = useCallback(() => {
    const element = form.current
    if (element === null || isUnsent() || isHandOn(element)) return
    for (const field of fieldsOf(element)) {
      if (field !== document.activeElement) takeServersValue(field)
    }
    const seen = element.elements.namedItem('base')
    if (seen instanceof HTMLInputElement) seen.value = newest.current
  }, [form, isUnsent])
  useEffect(() => {
    // Also once everything was sent: what came meanwhile waited for that.
    if (settled < 0) return
    newest.current = base
    apply()
  }, [base, settled, apply])
  return apply
}

/** She is in a field that says something else than the server has. */
function isHandOn(form: HTMLFormElement): boolean {
  const active = document.activeElement
  return isTyped(active) && form.contains(active) && active.value.trim() !== active.defaultValue.trim()
}

/** Fields of the sheet; what is typed for a promise or an option is nobody else's. */
function fieldsOf(form: HTMLFormElement): Typed[] {
  return [...form.querySelectorAll<Typed>('.sheet input, .sheet textarea')]
}

function takeServersValue(field: Typed): void {
  if (field instanceof HTMLInputElement && ['checkbox', 'radio'].includes(field.type)) {
    if (field.checked !== field.defaultChecked) field.checked = field.defaultChecked
  } else if (isTyped(field) && field.value !== field.defaultValue) {
    field.value = field.defaultValue
  }
}

function isTyped(element: Element | null): element is Typed {
  if (element instanceof HTMLTextAreaElement) return true
  return element instanceof HTMLInputElement && ['text', 'tel'].includes(element.type)
}

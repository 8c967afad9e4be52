import { type RefObject, useEffect } from 'react'

/**
 * Ctrl or Cmd with Enter takes the first option; F2 goes between sheet and options; with Shift it puts the call aside
 * and takes the next.
 */
export function useCallKeys(form: RefObject<HTMLFormElement | null>): void {
  useEffect(() => {
    const press = (button: HTMLButtonElement | null | undefined, event: KeyboardEvent) => {
      if (!button) return
      event.preventDefault()
      form.current?.requestSubmit(button)
    }
    const onKey = (event: KeyboardEvent) => {
      const isOnLink = event.target instanceof HTMLAnchorElement
      if (event.key === 'Enter' && (event.ctrlKey || event.metaKey) && !isOnLink) {
        press(form.current?.querySelector<HTMLButtonElement>('button[name="take"]'), event)
      } else if (event.key === 'F2' && event.shiftKey) {
        // It stands outside the form, in sight from anywhere on the sheet.
        press(document.querySelector<HTMLButtonElement>('button[name="do"][value="next"]'), event)
      } else if (event.key === 'F2') {
        event.preventDefault()
        const options = document.getElementById('options')
        const isInOptions = options?.contains(document.activeElement) === true
        const animal = form.current?.elements.namedItem('animalTyped')
        if (!isInOptions) options?.focus()
        else if (animal instanceof HTMLElement) animal.focus()
      }
    }
    document.addEventListener('keydown', onKey)
    return () => document.removeEventListener('keydown', onKey)
  }, [form])
}

/**
 * What was typed and not yet sent, kept in this tab only until the server has it: a reload with no connection loses
 * nothing. It may name a finder, so it is forgotten the moment it was sent, and goes with the tab.
 */

/** Keeps everything the form holds, with the base it was typed over: the server merges by it. */
export function keepUnsent(callId: number, form: HTMLFormElement): void {
  const typed = [...new FormData(form).entries()].filter(
    ([name, value]) => typeof value === 'string' && name !== 'callId' && !name.startsWith('$'),
  )
  try {
    sessionStorage.setItem(keyOf(callId), JSON.stringify(typed))
  } catch {
    // A browser that keeps nothing still sends.
  }
}

/** Forgets it: the server has it. */
export function forgetUnsent(callId: number): void {
  sessionStorage.removeItem(keyOf(callId))
}

/** Puts back what was not sent; says whether there was anything. */
export function restoreUnsent(callId: number, form: HTMLFormElement): boolean {
  const kept = sessionStorage.getItem(keyOf(callId))
  if (kept === null) return false
  const typed = new Map<string, string[]>()
  for (const [name, value] of JSON.parse(kept) as [string, string][]) {
    typed.set(name, [...(typed.get(name) ?? []), value])
  }
  for (const field of form.elements) {
    if (field instanceof HTMLInputElement && ['checkbox', 'radio'].includes(field.type)) {
      // Only ticks come back: what is clear here may have been ticked by the server because of words.
      if (typed.get(field.name)?.includes(field.value) === true) field.checked = true
    } else if (isTyped(field) && typed.has(field.name)) {
      field.value = typed.get(field.name)?.[0] ?? ''
    }
  }
  return true
}

function isTyped(field: Element): field is HTMLInputElement | HTMLTextAreaElement {
  if (field instanceof HTMLTextAreaElement) return true
  return field instanceof HTMLInputElement && (['text', 'tel'].includes(field.type) || field.name === 'base')
}

function keyOf(callId: number): string {
  return `call ${callId}, not sent`
}

/**
 * Addresses that open a phone's own message or e-mail with its words in place (RFC 5724 and RFC 6068).
 * Promise: spaces and line breaks arrive as they were written; without a number the phone asks to whom.
 */

/** A text message to a number, as it is written with spaces or without. */
export function textMessageHref(phone: string | null, text: string): string {
  return `sms:${(phone ?? '').replace(/[^+\d]/g, '')}?body=${encodeURIComponent(text)}`
}

/** An e-mail to an address, or to nobody yet. */
export function emailHref(address: string | null, subject: string, text: string): string {
  // Line breaks of a body are CR LF (RFC 6068, 5).
  const body = text.replaceAll(/\r?\n/g, '\r\n')
  const to = (address ?? '').split('@').map(encodeURIComponent).join('@')
  return `mailto:${to}?subject=${encodeURIComponent(subject)}&body=${encodeURIComponent(body)}`
}

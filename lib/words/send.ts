/** Sending what was prepared: copying, a text message, an e-mail. */
export const SEND = {
  copy: 'Copy the text',
  copied: 'Copied',
  notCopied: 'This browser does not let it be copied: choose the text above and copy it',
  textMessage: 'Open as a text message',
  email: 'Open as an e-mail',
  aboutLeg: 'An animal to drive',
  aboutAsk: 'An animal to take in',
} as const

/** "Text Sorrel Wain, 01632 960306". */
export function textTo(name: string | null, phone: string | null): string {
  return name === null || phone === null ? SEND.textMessage : `Text ${name}, ${phone}`
}

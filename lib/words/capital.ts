/** The words with a capital at their head, as at the head of a line. */
export function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1)
}

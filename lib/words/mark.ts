/**
 * How far a number or a caution can be trusted, in words: read in a source, worked out, by likeness, from memory, or
 * common practice. Promise: the short sign of every mark of the reference is said in full; unknown signs stay as they are.
 */

const KINDS: Readonly<Record<string, string>> = {
  R: 'published',
  D: 'worked out from published figures',
  A: 'by likeness',
  M: 'from memory',
  CP: 'common practice, no source',
  ours: 'ours, no source',
}

/** "published: S14, S16; common practice, no source". */
export function markWords(mark: string | null): string {
  if (mark === null || mark.trim() === '') return 'no source given'
  return mark
    .split(';')
    .map(part => part.trim())
    .map(oneMark)
    .join('; ')
}

/** Whether a mark rests on something that was read. */
export function isPublished(mark: string | null): boolean {
  return mark !== null && /(^|[;\s])R:/.test(mark)
}

function oneMark(part: string): string {
  const [sign = '', source] = part.split(':')
  const kind = Object.hasOwn(KINDS, sign) ? KINDS[sign] : undefined
  if (kind === undefined) return part
  return source === undefined ? kind : `${kind}: ${source.split('+').join(', ')}`
}

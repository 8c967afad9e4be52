/**
 * Finding things by a few letters, as they are typed while somebody talks on the phone.
 * Promise: every typed word must match the start of a word of the thing, one letter wrong allowed from four letters
 * on and two from eight; best first, ties by length and then by alphabet, so the same letters give the same list.
 */

export type Searchable = {
  readonly text: string /** 0 is a proper name; higher counts for less. */
  readonly rank: number
}

export type Hit<T> = { readonly item: T; readonly score: number; readonly matched: string }

const TYPO_COST = 3
const ONE_TYPO_FROM = 4
const TWO_TYPOS_FROM = 8

/** The things that match, best first; nothing typed matches nothing. */
export function search<T>(
  typed: string,
  items: readonly T[],
  textsOf: (item: T) => readonly Searchable[],
  limit = 12,
): Hit<T>[] {
  const query = plain(typed)
  if (query === '') return []
  const hits = items.flatMap(item => {
    const found = bestText(query, textsOf(item))
    return found === undefined ? [] : [{ item, ...found }]
  })
  return hits
    .sort(
      (a, b) => a.score - b.score || a.matched.length - b.matched.length || (a.matched < b.matched ? -1 : 1),
    )
    .slice(0, limit)
}

/** Lower case without accents or signs, single spaces. */
export function plain(text: string): string {
  return text
    .normalize('NFD')
    .replace(/[\u0300-\u036f'’]/g, '')
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .trim()
}

/** Whether two words are the same up to `most` letters put in, left out, changed or swapped with a neighbour. */
export function isWithin(a: string, b: string, most: number): boolean {
  return Math.abs(a.length - b.length) <= most && editDistance(a, b) <= most
}

/** Damerau's distance with adjacent swaps (optimal string alignment). */
export function editDistance(a: string, b: string): number {
  let beforeLast: number[] = []
  let last = Array.from({ length: b.length + 1 }, (_, at) => at)
  for (let i = 1; i <= a.length; i++) {
    const row = [i]
    for (let j = 1; j <= b.length; j++) {
      const swap = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]
      row.push(
        Math.min(
          (last[j] ?? 0) + 1,
          (row[j - 1] ?? 0) + 1,
          (last[j - 1] ?? 0) + (a[i - 1] === b[j - 1] ? 0 : 1),
          swap ? (beforeLast[j - 2] ?? 0) + 1 : Number.POSITIVE_INFINITY,
        ),
      )
    }
    beforeLast = last
    last = row
  }
  return last[b.length] ?? 0
}

function bestText(
  query: string,
  texts: readonly Searchable[],
): { score: number; matched: string } | undefined {
  let best: { score: number; matched: string } | undefined
  for (const { text, rank } of texts) {
    const score = scoreOf(query, plain(text))
    if (score !== undefined && (best === undefined || score + rank < best.score)) {
      best = { score: score + rank, matched: text }
    }
  }
  return best
}

function scoreOf(query: string, text: string): number | undefined {
  if (text === query) return 0
  if (text.startsWith(query)) return 0.5
  const words = text.split(' ')
  let sum = 1
  for (const token of query.split(' ')) {
    const cost = Math.min(...words.map(word => wordCost(token, word)))
    if (!Number.isFinite(cost)) return undefined
    sum += cost
  }
  return sum
}

function wordCost(token: string, word: string): number {
  if (word.startsWith(token)) return 0
  const allowed = token.length >= TWO_TYPOS_FROM ? 2 : token.length >= ONE_TYPO_FROM ? 1 : 0
  for (let typos = 1; typos <= allowed; typos++) {
    const isNear = [-2, -1, 0, 1, 2].some(
      more => editDistance(token, word.slice(0, token.length + more)) <= typos,
    )
    if (isNear) return typos * TYPO_COST
  }
  return Number.POSITIVE_INFINITY
}

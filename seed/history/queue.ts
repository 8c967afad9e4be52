/** What happens next: a heap of instants, in the order of entry where two are the same. */
export class Queue<T> {
  readonly #heap: { readonly at: number; readonly order: number; readonly item: T }[] = []
  #entered = 0

  add(at: number, item: T): void {
    const heap = this.#heap
    heap.push({ at, order: this.#entered++, item })
    let here = heap.length - 1
    while (here > 0) {
      const above = (here - 1) >> 1
      if (!this.#isBefore(here, above)) break
      this.#swap(here, above)
      here = above
    }
  }

  /** The earliest, taken out; undefined when nothing is left or the earliest is not before the limit. */
  next(before: number): { readonly at: number; readonly item: T } | undefined {
    const first = this.#heap[0]
    if (first === undefined || first.at >= before) return undefined
    const last = this.#heap.pop()
    if (last !== undefined && this.#heap.length > 0) {
      this.#heap[0] = last
      this.#sink()
    }
    return first
  }

  #sink(): void {
    let here = 0
    for (;;) {
      const left = 2 * here + 1
      let least = here
      for (const below of [left, left + 1])
        if (below < this.#heap.length && this.#isBefore(below, least)) least = below
      if (least === here) return
      this.#swap(here, least)
      here = least
    }
  }

  #isBefore(a: number, b: number): boolean {
    const one = this.#heap[a]
    const two = this.#heap[b]
    if (one === undefined || two === undefined) return false
    return one.at < two.at || (one.at === two.at && one.order < two.order)
  }

  #swap(a: number, b: number): void {
    const one = this.#heap[a]
    const two = this.#heap[b]
    if (one !== undefined && two !== undefined) {
      this.#heap[a] = two
      this.#heap[b] = one
    }
  }
}

/** How many statements a piece of work sends to the database, over every connection of this process. */
import pg from 'pg'
import { vi } from 'vitest'

/** What the work made, and how many statements it took. */
export async function counted<T>(
  work: () => Promise<T>,
): Promise<{ readonly made: T; readonly statements: number }> {
  const sent = vi.spyOn(pg.Client.prototype, 'query')
  try {
    const made = await work()
    return { made, statements: sent.mock.calls.length }
  } finally {
    sent.mockRestore()
  }
}

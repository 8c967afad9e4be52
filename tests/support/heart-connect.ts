import pg from 'pg'

/** One connection of its own. */
export async function connect(url: string): Promise<pg.Client> {
  const client = new pg.Client({ connectionString: url })
  await client.connect()
  return client
}

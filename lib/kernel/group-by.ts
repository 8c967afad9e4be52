/**
 * Rows grouped by a key, in the order in which keys and rows first appear. Node 20 has no Map.groupBy yet.
 */

/** A map from key to its rows; every group has at least one row. */
export function groupBy<K, T>(rows: Iterable<T>, keyOf: (row: T) => K): Map<K, [T, ...T[]]> {
  const groups = new Map<K, [T, ...T[]]>()
  for (const row of rows) {
    const key = keyOf(row)
    const group = groups.get(key)
    if (group === undefined) groups.set(key, [row])
    else group.push(row)
  }
  return groups
}

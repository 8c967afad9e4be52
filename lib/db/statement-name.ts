/**
 * Names for statements, so that each connection parses and plans what is asked again and again once.
 * Promise: the same text has the same name; at most so many texts have one, for a connection keeps each until it ends.
 */

const NAMED_MAX = 400

/** A namer for the connections of one pool; past the limit a text has no name, and is planned each time. */
export function statementNames(max = NAMED_MAX): (query: { readonly sql: string }) => string {
  const names = new Map<string, string>()
  return ({ sql }) => {
    const known = names.get(sql)
    if (known !== undefined || names.size >= max) return known ?? ''
    const name = `s${names.size}`
    names.set(sql, name)
    return name
  }
}

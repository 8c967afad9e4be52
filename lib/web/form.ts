/**
 * Between a form's fields and plain values, both ways.
 * Promise: a name like `stages.0.days` becomes nested values, a name ending in `[]` a list however many are chosen;
 * everything typed is kept as text by its field name, so that a refusal can put it back. Files are read as text first, so that a refusal gives back their
 * words too.
 */

/** What was typed, by field name as the form spells it. */
export type FormValues = Readonly<Record<string, readonly string[]>>
export type FormInput = { readonly [key: string]: FormNode }
export type FormNode = string | readonly FormNode[] | FormInput

const PICTURE = 'picture'

/** The bytes of a picture that was chosen. */
export async function pictureOf(data: FormData): Promise<Uint8Array | undefined> {
  const sent = data.get(PICTURE)
  return sent instanceof Blob && sent.size > 0 ? new Uint8Array(await sent.arrayBuffer()) : undefined
}

/** A chosen file counts as text typed in the field of its name; a field left without a file counts for nothing. */
export async function withFileTexts(data: FormData): Promise<FormData> {
  const read = new FormData()
  for (const [name, value] of data.entries()) {
    if (typeof value === 'string') read.append(name, value)
    else if (value.size > 0 && name !== PICTURE) read.append(name, await value.text())
  }
  return read
}

type Node = string | Node[] | { [key: string]: Node }

/** Everything typed, field by field, for giving back. Passwords and codes are not given back. */
export function typedValues(data: FormData): FormValues {
  const values: Record<string, string[]> = Object.create(null)
  for (const [name, value] of data.entries()) {
    if (typeof value !== 'string' || isInternal(name) || isSecret(name)) continue
    values[name] = [...(values[name] ?? []), value]
  }
  return { ...values }
}

/** The nested values a schema reads. A name said twice without `[]` keeps its last value, as a browser does. */
export function readForm(data: FormData): FormInput {
  const root: { [key: string]: Node } = Object.create(null)
  for (const [name, value] of data.entries()) {
    if (typeof value !== 'string' || isInternal(name)) continue
    const isList = name.endsWith('[]')
    put(root, (isList ? name.slice(0, -2) : name).split('.'), value, isList)
  }
  return listed(root) as FormInput
}

/** What was typed in one field, else the value it starts with. */
export function typedText(values: FormValues, name: string, start = ''): string {
  return Object.hasOwn(values, name) ? (values[name]?.at(-1) ?? start) : start
}

/** What was chosen in a field that may hold several, else the values it starts with. */
export function typedList(
  values: FormValues,
  name: string,
  start: readonly string[] = [],
): readonly string[] {
  return Object.hasOwn(values, name) ? (values[name] ?? start) : start
}

/** Whether a box was ticked; a form that was sent without it means no. */
export function typedTick(values: FormValues, name: string, start = false): boolean {
  return Object.keys(values).length === 0 ? start : Object.hasOwn(values, name)
}

function isInternal(name: string): boolean {
  return name.startsWith('$ACTION')
}

function isSecret(name: string): boolean {
  return /password|code$/i.test(name)
}

function put(root: { [key: string]: Node }, path: readonly string[], value: string, isList: boolean): void {
  let at = root
  for (const key of path.slice(0, -1)) {
    const below = at[key]
    const next: { [key: string]: Node } =
      typeof below === 'object' && !Array.isArray(below) ? below : Object.create(null)
    at[key] = next
    at = next
  }
  const last = path.at(-1) ?? ''
  const before = at[last]
  at[last] = isList ? [...(Array.isArray(before) ? before : []), value] : value
}

/** Objects whose keys are all whole numbers become lists in the order of the numbers; gaps close. */
function listed(node: Node): Node {
  if (typeof node === 'string') return node
  if (Array.isArray(node)) return node.map(listed)
  const keys = Object.keys(node)
  if (keys.length > 0 && keys.every(key => /^\d+$/.test(key))) {
    return keys.sort((a, b) => Number(a) - Number(b)).map(key => listed(node[key] ?? ''))
  }
  return Object.fromEntries(keys.map(key => [key, listed(node[key] ?? '')]))
}

/**
 * The forms of a page as a browser without JavaScript sends them: hidden fields, what stands in each field, the button.
 * Reads what React writes (every value in double quotes, escaped), not any HTML there is.
 */
export type Field = readonly [name: string, value: string]
export type PlainForm = {
  /** What would be sent if nothing were typed. */
  readonly fields: readonly Field[]
  /** Every named field, also boxes that are not ticked. */
  readonly names: ReadonlySet<string>
  /** Buttons that send a name. */
  readonly buttons: readonly Field[]
}

const ENTITIES: Readonly<Record<string, string>> = {
  amp: '&',
  lt: '<',
  gt: '>',
  quot: '"',
  '#x27': "'",
  '#39': "'",
}

type Where = { readonly after?: number; readonly without?: string }

/** The first form that has all of these fields, at or after a place in the page, and not a certain other. */
export function formWith(
  html: string,
  names: readonly string[],
  { after = 0, without = '' }: Where = {},
): PlainForm | undefined {
  for (const [, inside = ''] of html.slice(after).matchAll(/<form\b[^>]*>(.*?)<\/form>/gs)) {
    const form = readForm(inside)
    if (names.every(name => form.names.has(name)) && !form.names.has(without)) return form
  }
  return undefined
}

/** What a browser posts once this is typed and that button pressed. */
export function filled(form: PlainForm, typed: Readonly<Record<string, string>>, button?: Field): FormData {
  const data = new FormData()
  for (const [name, value] of form.fields) if (!(name in typed)) data.append(name, value)
  for (const [name, value] of Object.entries(typed)) data.append(name, value)
  if (button !== undefined) data.append(...button)
  return data
}

function readForm(inside: string): PlainForm {
  const fields: Field[] = []
  const buttons: Field[] = []
  const names = new Set<string>()
  const parts = /<(input|button)\b([^>]*)>|<(textarea|select)\b([^>]*)>(.*?)<\/\3>/gs
  for (const [, short, shortHas = '', long, longHas = '', content = ''] of inside.matchAll(parts)) {
    const has = attributes(short === undefined ? longHas : shortHas)
    const name = has.get('name')
    if (name === undefined || name === '' || has.has('disabled')) continue
    if (short === 'button') {
      buttons.push([name, has.get('value') ?? ''])
      continue
    }
    names.add(name)
    const value = long === 'select' ? chosen(content) : long === 'textarea' ? decoded(content) : ofInput(has)
    if (value !== undefined) fields.push([name, value])
  }
  return { fields, names, buttons }
}

function ofInput(has: ReadonlyMap<string, string>): string | undefined {
  const isChoice = has.get('type') === 'checkbox' || has.get('type') === 'radio'
  if (isChoice && !has.has('checked')) return undefined
  return has.get('value') ?? (isChoice ? 'on' : '')
}

/** The chosen option of a select, else its first. */
function chosen(content: string): string | undefined {
  const options = [...content.matchAll(/<option\b([^>]*)>(.*?)<\/option>/gs)].map(
    ([, given = '', text = '']) => ({
      has: attributes(given),
      text,
    }),
  )
  const one = options.find(({ has }) => has.has('selected')) ?? options[0]
  return one === undefined ? undefined : (one.has.get('value') ?? decoded(one.text))
}

function attributes(given: string): Map<string, string> {
  return new Map(
    [...given.matchAll(/([\w:$.-]+)="([^"]*)"/g)].map(([, name = '', value = '']) => [
      name.toLowerCase(),
      decoded(value),
    ]),
  )
}

/** Text without its escapes. */
export function decoded(text: string): string {
  return text.replaceAll(/&(#?\w+);/g, (whole, name: string) => ENTITIES[name] ?? whole)
}

/**
 * prisma/schema.prisma as plain data: models with their columns, and the names of rules it refers to. Reads the text,
 * since the generated client keeps neither nullability nor column types.
 */

export type PrismaColumn = { readonly name: string; readonly type: string; readonly isNullable: boolean }
export type PrismaModel = {
  readonly table: string
  readonly columns: readonly PrismaColumn[]
  /** Names of indexes, unique rules and foreign keys. */
  readonly rules: readonly string[]
}

const TYPES: Readonly<Record<string, string>> = {
  Int: 'integer',
  BigInt: 'bigint',
  String: 'text',
  Boolean: 'boolean',
  Float: 'double precision',
  Json: 'jsonb',
  Bytes: 'bytea',
  'DateTime@db.Timestamptz(6)': 'timestamp with time zone',
  'DateTime@db.Date': 'date',
}

export function readPrismaSchema(text: string): PrismaModel[] {
  const blocks = [...text.matchAll(/^model (\w+) \{\n([\s\S]*?)^\}/gm)]
  const models = new Set(blocks.map(block => block[1]))
  return blocks.map(([, name = '', body = '']) => {
    const lines = body
      .split('\n')
      .map(line => line.replace(/\/\/.*$/, '').trim())
      .filter(line => line !== '')
    return {
      table: /@@map\("(\w+)"\)/.exec(body)?.[1] ?? name,
      columns: lines.flatMap(line => columnOf(line, models)),
      rules: [...body.matchAll(/(?<!@@|@)map: "(\w+)"/g)].map(match => match[1] ?? ''),
    }
  })
}

function columnOf(line: string, models: ReadonlySet<string | undefined>): PrismaColumn[] {
  const [, field, kind, mark, rest] = /^(\w+)\s+(\w+)(\?|\[\])?\s*(.*)$/.exec(line) ?? []
  if (field === undefined || kind === undefined || rest === undefined || models.has(kind)) return []
  const native = /@db\.\w+(\(\d+\))?/.exec(rest)?.[0] ?? ''
  const type = TYPES[kind + native] ?? `unknown ${kind}${native}`
  return [
    {
      name: /@map\("(\w+)"\)/.exec(rest)?.[1] ?? field,
      type: mark === '[]' ? `${type}[]` : type,
      isNullable: mark === '?',
    },
  ]
}

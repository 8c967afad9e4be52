/**
 * Reads the sentences the program can say. Texts are the strings and templates of a file that a person may read:
 * not import names, keys, comparisons or type names; the gaps of a template count as a word.
 */
import { isNode, lineOf, nameOf, type Source, type SyntaxNode, statementsOf, walk } from './source.ts'

export type Text = { readonly text: string; readonly line: number }

const GAP = ' … '
const HOLDS_A_VALUE = ['TSAsExpression', 'TSSatisfiesExpression', 'TSNonNullExpression']
const COMPARED = ['===', '!==', '==', '!=', 'in']

/** Every text of a file. A sentence made by adding pieces is read as one. */
export function textsOf(source: Source): Text[] {
  const texts: Text[] = []
  walk(statementsOf(source), (node, parent, key) => {
    if (isType(node) || node.type === 'ImportDeclaration') return false
    if (isName(node, parent, key)) return false
    const text = textOf(node)
    if (text === undefined) return undefined
    texts.push({ text, line: lineOf(source, node) })
    return node.type === 'Literal' ? false : undefined
  })
  return texts
}

/** A type holds nothing to read; what is said `as const` or `satisfies` a type does. */
function isType({ type }: SyntaxNode): boolean {
  return type.startsWith('TS') && !HOLDS_A_VALUE.includes(type)
}

function isName(node: SyntaxNode, parent: SyntaxNode | undefined, key: string): boolean {
  if (parent === undefined || node.type !== 'Literal') return false
  return (
    (parent.type === 'Property' && key === 'key') ||
    (parent.type === 'SwitchCase' && key === 'test') ||
    (parent.type === 'BinaryExpression' && COMPARED.includes(String(parent['operator']))) ||
    (parent.type === 'MemberExpression' && key === 'property') ||
    parent.type.startsWith('Export')
  )
}

function textOf(node: SyntaxNode): string | undefined {
  if (node.type === 'Literal') return typeof node['value'] === 'string' ? node['value'] : undefined
  if (node.type === 'JSXText') return String(node['value'])
  if (node.type === 'TemplateLiteral') {
    const quasis = node['quasis'] as { value: { cooked: string } }[]
    return quasis.map(quasi => quasi.value.cooked).join(GAP)
  }
  if (node.type === 'BinaryExpression' && node['operator'] === '+') {
    return [node['left'], node['right']].map(side => (isNode(side) ? (textOf(side) ?? GAP) : GAP)).join('')
  }
  return undefined
}

const ENDED =
  /\b(death|deaths|dead|die|dies|died|dying|euthan\w*|put down|put to sleep|killed|culled?|lost (her|him|it)|releas\w* (\w+ )?(early|earlier|sooner)|earl(y|ier) (release|out)|(early|earlier|sooner) releas\w*|let (her|him|it) go (early|earlier|sooner))\b/i
const EASED =
  /\b(eas(e|es|ed|ing|ier)|reliev\w*|relief|fre(e|es|ed|eing)( up)?|spar(e|es|ed|ing)|sav(e|es|ed|ing)|gain\w*|help\w*|lighten\w*|mak\w* (room|space|way)|open\w* up|less (tight|short)|fewer short|better|benefit\w*|good news|fortunate\w*|lucky|luckily)\b/i

/** Whether a text makes a death or an earlier release a relief (principle 5 of the design). */
export function welcomesAnEnd(text: string): boolean {
  return ENDED.test(text) && EASED.test(text)
}

const UNWANTED = [
  { pattern: /\bplease\b/i, what: 'please' },
  { pattern: /\bsuccessful(ly)?\b/i, what: 'successfully' },
  { pattern: /\binvalid\b/i, what: 'invalid' },
  { pattern: /!(?!=)/, what: 'an exclamation mark' },
  { pattern: /\boops\b|\bsorry\b/i, what: 'an apology' },
] as const

/** What our way of writing forbids in a text. */
export function unwantedIn(text: string): string[] {
  return UNWANTED.filter(({ pattern }) => pattern.test(text)).map(({ what }) => what)
}

/** Sentences that stand in a page instead of in lib/words. */
export function strayWords(source: Source): string[] {
  const found: string[] = []
  walk(statementsOf(source), (node, parent) => {
    const isText = node.type === 'JSXText'
    const isRead = node.type === 'Literal' && parent?.type === 'JSXAttribute' && isReadAloud(parent)
    const text = isText || isRead ? String(node['value']) : ''
    if (/\p{L}{2,}/u.test(text)) found.push(`${source.path}:${lineOf(source, node)} says "${text.trim()}"`)
    return undefined
  })
  return found
}

const READ_ALOUD = [
  'title',
  'alt',
  'placeholder',
  'label',
  'aria-label',
  'hint',
  'sentence',
  'head',
  'note',
  'unit',
]

function isReadAloud(attribute: SyntaxNode): boolean {
  const name = attribute['name']
  return isNode(name) && READ_ALOUD.includes(nameOf(name) ?? String(name['name']))
}

/**
 * Holds a file of server actions against the rule: every export is made by the wrapper, and nothing else goes out.
 */
import { isNode, lineOf, nameOf, type Source, type SyntaxNode, statementsOf, walk } from './source.ts'

const MAKERS = ['defineAction', 'defineSharedAction', 'definePublicAction']

/** Whether a file says 'use server' at its top. */
export function isActionFile(source: Source): boolean {
  return statementsOf(source).some(node => node['directive'] === 'use server')
}

/** What is wrong with a file's actions; empty when nothing. */
export function actionComplaints(source: Source): string[] {
  const say = (node: SyntaxNode, what: string) => `${source.path}:${lineOf(source, node)} ${what}`
  if (isActionFile(source)) {
    return statementsOf(source)
      .filter(node => node.type.startsWith('Export') && !isMadeByWrapper(node))
      .map(node => say(node, 'exports something that is not defineAction(…)'))
  }
  const inline: string[] = []
  walk(statementsOf(source), node => {
    if (node['directive'] === 'use server') inline.push(say(node, "says 'use server' inside"))
    return undefined
  })
  return inline
}

function isMadeByWrapper(node: SyntaxNode): boolean {
  if (node.type === 'ExportNamedDeclaration' && node['exportKind'] === 'type') return true
  const declaration = node['declaration']
  if (node.type !== 'ExportNamedDeclaration' || !isNode(declaration)) return false
  const made = declaration['declarations']
  return (
    declaration.type === 'VariableDeclaration' &&
    declaration['kind'] === 'const' &&
    Array.isArray(made) &&
    made.every(one => {
      const init: unknown = isNode(one) ? one['init'] : undefined
      return isNode(init) && init.type === 'CallExpression' && MAKERS.includes(nameOf(init['callee']) ?? '')
    })
  )
}

/** Whether the wrapper a file uses is ours. */
export function usesOurWrapper(source: Source): boolean {
  return /import \{[^}]*\bdefine(Public)?Action\b[^}]*\} from '#lib\/web\/define-action\.ts'/.test(
    source.text,
  )
}

/**
 * Holds a service against the gate: every exported function takes who asks (or the grant that proves it was asked)
 * and demands a right, directly or through a function of the same file. Two marks in the docstring are excused:
 * "System:" (no person yet; demands as the system) and "No rows:" (in a file that never touches lib/db).
 */
import { isNode, nameOf, parsed, type Source, type SyntaxNode, statementsOf, walk } from './source.ts'

type Work = {
  readonly name: string
  readonly node: SyntaxNode
  readonly start: number
  readonly isExported: boolean
}

/** What is wrong with a service; empty when nothing. */
export function serviceComplaints(source: Source): string[] {
  const works = functionsOf(source)
  const demanding = demandingNames(works, importedServices(source))
  const touchesRows = parsed(source).module.staticImports.some(
    one => /(^#lib|\.\.)\/db\//.test(one.moduleRequest.value) && one.entries.some(entry => !entry.isType),
  )
  return works
    .filter(work => work.isExported)
    .flatMap(work => {
      const doc = docBefore(source, work.start)
      const first = firstParameter(work.node)
      const say = (what: string) => [`${source.path} ${work.name} ${what}`]
      if (/\bNo rows:/.test(doc)) return touchesRows ? say('says "No rows:" in a file that reads rows') : []
      if (first === 'grant' || first === '_grant') return []
      if (first !== 'actor' && !/\bSystem:/.test(doc)) return say('takes neither an actor nor a grant')
      return demanding.has(work.name) ? [] : say('never calls demand')
    })
}

function functionsOf(source: Source): Work[] {
  return statementsOf(source).flatMap(statement => {
    const isExported = statement.type === 'ExportNamedDeclaration'
    const declaration = isExported ? statement['declaration'] : statement
    if (!isNode(declaration)) return []
    const start = Number(statement['start'])
    if (declaration.type === 'FunctionDeclaration') {
      return [{ name: nameOf(declaration['id']) ?? 'default', node: declaration, start, isExported }]
    }
    if (declaration.type !== 'VariableDeclaration') return []
    return (declaration['declarations'] as SyntaxNode[]).flatMap(one => {
      const node = functionIn(one['init'])
      return node === undefined ? [] : [{ name: nameOf(one['id']) ?? '', node, start, isExported }]
    })
  })
}

/** The function a constant holds, also one wrapped in a call such as cache(…). */
function functionIn(init: unknown): SyntaxNode | undefined {
  if (!isNode(init)) return undefined
  if (['ArrowFunctionExpression', 'FunctionExpression'].includes(init.type)) return init
  if (init.type !== 'CallExpression') return undefined
  return (init['arguments'] as unknown[]).map(functionIn).find(found => found !== undefined)
}

function firstParameter(node: SyntaxNode): string | undefined {
  const [first] = node['params'] as unknown[]
  return nameOf(first)
}

/** Functions of other services: each is held against the gate itself, so handing the actor on is asking. */
function importedServices(source: Source): Set<string> {
  const services = parsed(source).module.staticImports.filter(one =>
    /^(\.\/|#lib\/service\/)/.test(one.moduleRequest.value),
  )
  return new Set(
    services.flatMap(one => one.entries.filter(entry => !entry.isType).map(entry => entry.localName.value)),
  )
}

function demandingNames(works: readonly Work[], services: ReadonlySet<string>): Set<string> {
  const calls = new Map(works.map(work => [work.name, callsIn(work.node, services)]))
  const demanding = new Set(['demand'])
  for (let before = 0; before !== demanding.size; ) {
    before = demanding.size
    for (const [name, called] of calls) if (called.some(one => demanding.has(one))) demanding.add(name)
  }
  return demanding
}

/** The names a function calls; another service called with the actor counts as `demand`. */
function callsIn(node: SyntaxNode, services: ReadonlySet<string>): string[] {
  const called: string[] = []
  walk(node, one => {
    const name = one.type === 'CallExpression' ? nameOf(one['callee']) : undefined
    if (name === undefined) return undefined
    const [first] = one['arguments'] as unknown[]
    called.push(services.has(name) && nameOf(first) === 'actor' ? 'demand' : name)
    return undefined
  })
  return called
}

function docBefore(source: Source, start: number): string {
  const doc = parsed(source).comments.findLast(
    comment =>
      comment.type === 'Block' && comment.end <= start && source.text.slice(comment.end, start).trim() === '',
  )
  return doc?.value ?? ''
}

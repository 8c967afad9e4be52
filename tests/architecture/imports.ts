/**
 * Holds one file against the law of imports.
 */
import { posix } from 'node:path'
import { LAYERS, type Layer } from './layers.ts'
import { isNode, parsed, type Source, walk } from './source.ts'

type Import = { readonly from: string; readonly isType: boolean; readonly isDynamic: boolean }

/** The room of a path: the longest place that matches, or undefined. */
export function layerOf(path: string): Layer | undefined {
  const places = LAYERS.flatMap(layer => layer.at.map(at => ({ layer, at })))
  const matching = places.filter(({ at }) => (at.endsWith('/') ? path.startsWith(at) : path === at))
  return matching.sort((a, b) => b.at.length - a.at.length)[0]?.layer
}

/** What the law says against a file; empty when nothing. */
export function importComplaints(source: Source): string[] {
  const layer = layerOf(source.path)
  if (layer === undefined) return [`${source.path} stands in no room of tests/architecture/layers.ts`]
  return importsOf(source).flatMap(one => {
    const complaint = complaintAbout(one, layer, source.path)
    return complaint === undefined ? [] : [`${source.path} (${layer.name}): ${complaint}`]
  })
}

function complaintAbout(one: Import, layer: Layer, path: string): string | undefined {
  if (one.isDynamic && layer.isDynamic !== true) return `${one.from} is loaded on demand`
  const target = targetOf(one.from, path)
  if (target === undefined) {
    return layer.packages.some(name => covers(name, one.from))
      ? undefined
      : `package ${one.from} is not listed`
  }
  const room = layerOf(target)
  if (room === undefined) return isAsset(target) ? undefined : `${one.from} leads into no room`
  const allowed = room.name === layer.name || layer.imports.includes(room.name)
  if (allowed || (one.isType && layer.typesOf?.includes(room.name) === true)) return undefined
  return `${one.from} is in ${room.name}, which it may not import`
}

function targetOf(from: string, path: string): string | undefined {
  if (from.startsWith('#')) return from.slice(1)
  return from.startsWith('.') ? posix.normalize(posix.join(posix.dirname(path), from)) : undefined
}

function isAsset(target: string): boolean {
  return /\.(css|json|csv|md)$/.test(target)
}

function covers(listed: string, wanted: string): boolean {
  return listed.endsWith('*') ? wanted.startsWith(listed.slice(0, -1)) : wanted === listed
}

function importsOf(source: Source): Import[] {
  const { module, program } = parsed(source)
  const found: Import[] = []
  for (const one of module.staticImports) {
    const isType = one.entries.length > 0 && one.entries.every(entry => entry.isType)
    found.push({ from: one.moduleRequest.value, isType, isDynamic: false })
  }
  for (const { entries } of module.staticExports) {
    for (const { moduleRequest, isType } of entries) {
      if (moduleRequest !== null) found.push({ from: moduleRequest.value, isType, isDynamic: false })
    }
  }
  walk(program, node => {
    const isCall = node.type === 'ImportExpression'
    if (!isCall && node.type !== 'TSImportType') return undefined
    const wanted = node['source']
    const from =
      isNode(wanted) && typeof wanted['value'] === 'string' ? wanted['value'] : 'something computed'
    found.push({ from, isType: !isCall, isDynamic: isCall })
    return undefined
  })
  return found
}

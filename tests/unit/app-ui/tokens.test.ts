import { readFileSync } from 'node:fs'
import { converter, differenceCiede2000, type Lrgb, parse, wcagContrast } from 'culori'
import { describe, expect, it } from 'vitest'

const css = readFileSync(new URL('../../../app/_ui/tokens.css', import.meta.url), 'utf8')
const [lightText = '', darkText = '', printText = ''] = css.split(/@media [^{]+\{/)

function tokensOf(text: string): Record<string, string> {
  return Object.fromEntries(
    [...text.matchAll(/--([\w-]+): (#[0-9a-f]+);/g)].map(([, name, hex]) => [name, hex]),
  )
}
const light = tokensOf(lightText)
const dark = { ...light, ...tokensOf(darkText) }
const print = { ...light, ...tokensOf(printText) }

/**
 * Machado, Oliveira and Fernandes, "A physiologically-based model for simulation of color vision deficiency", 2009,
 * matrices of full severity, on linear RGB (written from memory; the tests below meet the table of the design).
 */
const SIGHT = {
  normal: [1, 0, 0, 0, 1, 0, 0, 0, 1],
  deutan: [0.367322, 0.860646, -0.227968, 0.280085, 0.672501, 0.047413, -0.01182, 0.04294, 0.968881],
  protan: [0.152286, 1.052583, -0.204868, 0.114503, 0.786281, 0.099216, -0.003882, -0.048116, 1.051998],
  tritan: [1.255528, -0.076749, -0.178779, -0.078411, 0.930809, 0.147602, 0.004733, 0.691367, 0.3039],
} as const
type Sight = keyof typeof SIGHT

const linear = converter('lrgb')
const distance = differenceCiede2000()

function seen(hex: string, sight: Sight): Lrgb {
  const m = SIGHT[sight]
  const { r, g, b } = linear(parse(hex)!)
  const mix = (i: number) => Math.min(1, Math.max(0, m[i]! * r + m[i + 1]! * g + m[i + 2]! * b))
  return { mode: 'lrgb', r: mix(0), g: mix(3), b: mix(6) }
}

function least(hexes: readonly string[], sight: Sight): number {
  let smallest = Number.POSITIVE_INFINITY
  hexes.forEach((a, i) => {
    for (const b of hexes.slice(i + 1))
      smallest = Math.min(smallest, distance(seen(a, sight), seen(b, sight)))
  })
  return smallest
}

const STAGES = ['critical', 'quarantine', 'restricted', 'limited', 'unlimited', 'overwintering']
const CHANCES = ['firm', 'uncertain', 'unlikely']
const SCHEMES = { light, dark, print }

describe.each(Object.entries(SCHEMES))('tokens, %s', (scheme, tokens) => {
  const colours = (names: readonly string[]) => names.map(name => tokens[name]!)

  it('keep text readable on paper and sheet (WCAG 2.2, 1.4.3: 4.5)', () => {
    for (const name of ['ink', 'ink-2', 'mine', 'grave', 'watch']) {
      for (const ground of ['paper', 'sheet', 'sunk']) {
        expect(wcagContrast(tokens[name]!, tokens[ground]!), `${name} on ${ground}`).toBeGreaterThanOrEqual(
          4.5,
        )
      }
    }
    expect(wcagContrast(tokens['on-go']!, tokens['go']!)).toBeGreaterThanOrEqual(4.5)
  })

  it('keep control borders and chances visible (WCAG 2.2, 1.4.11: 3)', () => {
    for (const name of ['edge', ...CHANCES, 'restricted', 'critical', 'overwintering']) {
      for (const ground of ['paper', 'sheet']) {
        expect(wcagContrast(tokens[name]!, tokens[ground]!), `${name} on ${ground}`).toBeGreaterThanOrEqual(3)
      }
    }
  })

  // The smallest distances of the design's table, light and dark; paper takes the light set.
  const bar = scheme === 'dark' ? [19.1, 15.1, 15.1, 11.2] : [21.6, 18, 18.6, 15.7]
  it.each((Object.keys(SIGHT) as Sight[]).map((sight, i) => [sight, bar[i]!] as const))(
    'keep the stages apart for %s sight (CIEDE2000 at least %d)',
    (sight, smallest) => {
      expect(least(colours(STAGES), sight)).toBeGreaterThanOrEqual(smallest - 0.05)
    },
  )

  it('keep the three chances apart for every sight', () => {
    for (const sight of Object.keys(SIGHT) as Sight[])
      expect(least(colours(CHANCES), sight)).toBeGreaterThan(15.5)
  })

  it('let the freedom stages climb in lightness, so that grey paper keeps their order', () => {
    const lab = converter('lab')
    const climb = colours(['critical', 'restricted', 'limited', 'unlimited']).map(hex => lab(parse(hex)!).l)
    expect(climb).toEqual(climb.toSorted((a, b) => a - b))
  })
})

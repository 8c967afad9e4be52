/**
 * Renders the components to static pages, photographs them and lets axe read them.
 * Run: `node --import tsx tests/gallery/gallery.tsx [sheet…]`. Pictures land in tests/output/gallery.
 */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { dirname, resolve } from 'node:path'
import { pathToFileURL } from 'node:url'
import AxeBuilder from '@axe-core/playwright'
import { type Browser, chromium, type Page } from '@playwright/test'
import type { ReactNode } from 'react'
import { renderToStaticMarkup } from 'react-dom/server'
import { Round } from './round.tsx'
import { Forms, Frame, Ribbons } from './sheet.tsx'
import { Weeks } from './weeks.tsx'

const OUT = resolve('tests/output/gallery')
const SHEETS: Readonly<Record<string, ReactNode>> = {
  ribbons: <Ribbons />,
  forms: <Forms />,
  weeks: <Weeks />,
  round: <Round />,
}

function inlined(file: string): string {
  const find = createRequire(file)
  return readFileSync(file, 'utf8')
    .replace(/@import "([^"]+)";/g, (_, name: string) =>
      inlined(name.startsWith('.') ? resolve(dirname(file), name) : find.resolve(name)),
    )
    .replace(
      /url\((?:"|')?(\.[^)"']+)(?:"|')?\)/g,
      (_, name: string) => `url(${pathToFileURL(resolve(dirname(file), name))})`,
    )
}

/** Labels of one picture that lie on each other, and whatever makes the page scroll sideways. */
async function faultsOf(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const faults: string[] = []
    const wide = document.documentElement.scrollWidth - innerWidth
    if (wide > 0) faults.push(`scrolls ${wide} px sideways`)
    for (const group of document.querySelectorAll(
      '.rb-names, .rb-lane, .axis, .rb-checks, .fan-right, .fan-notes',
    )) {
      const boxes = [...group.children]
        .map(node => ({
          text: node.textContent,
          box: (node.querySelector('b') ?? node).getBoundingClientRect(),
        }))
        .filter(({ box, text }) => box.width > 1 && text !== '')
      const room = group.getBoundingClientRect()
      boxes.forEach((a, i) => {
        if (a.box.left < room.left - 3 || a.box.right > Math.max(room.right, 0) + 160) {
          faults.push(`"${a.text}" leaves its picture`)
        }
        for (const b of boxes.slice(i + 1)) {
          const isApart =
            a.box.right <= b.box.left + 0.5 ||
            b.box.right <= a.box.left + 0.5 ||
            a.box.bottom <= b.box.top + 0.5 ||
            b.box.bottom <= a.box.top + 0.5
          if (!isApart) faults.push(`"${a.text}" lies on "${b.text}"`)
        }
      })
    }
    return faults
  })
}

/** A4 less its margins is 680 px wide. */
async function printed(page: Page, name: string): Promise<string[]> {
  await page.emulateMedia({ media: 'print' })
  await page.screenshot({ path: `${OUT}/${name}-print.png`, fullPage: true })
  await page.pdf({ path: `${OUT}/${name}.pdf`, preferCSSPageSize: true })
  const faults = await faultsOf(page)
  for (const fault of faults) console.log(`${name} on paper: ${fault}`)
  return faults
}

async function photograph(
  browser: Browser,
  name: string,
  scheme: 'light' | 'dark',
  width: number,
): Promise<number> {
  const context = await browser.newContext({ colorScheme: scheme, viewport: { width, height: 900 } })
  const page = await context.newPage()
  await page.goto(pathToFileURL(`${OUT}/${name}.html`).href)
  await page.screenshot({ path: `${OUT}/${name}-${width}-${scheme}.png`, fullPage: true })
  const faults = await faultsOf(page)
  for (const fault of faults) console.log(`${name} ${width} ${scheme}: ${fault}`)
  const { violations } = await new AxeBuilder({ page }).analyze()
  for (const found of violations) {
    console.log(
      `${name} ${width} ${scheme}: axe ${found.id}: ${found.nodes.map(node => node.html.slice(0, 160)).join(' | ')}`,
    )
  }
  if (width === 680 && scheme === 'light') faults.push(...(await printed(page, name)))
  await context.close()
  return faults.length + violations.length
}

mkdirSync(OUT, { recursive: true })
const css = inlined(resolve('app/_ui/look.css'))
const browser = await chromium.launch({
  executablePath: '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-gpu', '--disable-background-networking', '--no-first-run'],
})
const wanted = process.argv.slice(2)
let faults = 0
for (const [name, sheet] of Object.entries(SHEETS)) {
  if (wanted.length > 0 && !wanted.includes(name)) continue
  const body = renderToStaticMarkup(
    <Frame skips={name === 'ribbons' ? [{ href: '#options', text: 'Skip to the options' }] : []}>
      {sheet}
    </Frame>,
  )
  writeFileSync(
    `${OUT}/${name}.html`,
    `<!doctype html><html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width,initial-scale=1"><title>${name}</title><style>${css}</style></head><body>${body}</body></html>`,
  )
  for (const scheme of ['light', 'dark'] as const) {
    for (const width of [320, 390, 680, 1280]) faults += await photograph(browser, name, scheme, width)
  }
}
await browser.close()
console.log(`${faults} faults found`)
process.exitCode = faults === 0 ? 0 : 1

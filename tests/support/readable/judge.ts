/**
 * Judges a page as it stands: axe's rules in light and in dark, and whether anything makes it scroll sideways.
 * Everything that unfolds is unfolded first, since what is folded away is not judged.
 */
import { AxeBuilder } from '@axe-core/playwright'
import type { Page } from '@playwright/test'

/** The levels of WCAG 2.2 AA as axe names them, and axe's own good practice. */
const TAGS = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice']
const COLOUR_RULES = ['color-contrast', 'link-in-text-block']
const RESULTS: { resultTypes: ('violations' | 'incomplete')[] } = {
  resultTypes: ['violations', 'incomplete'],
}
/** Rows past the thirtieth are as those before, and each costs as much. */
const FURTHER_ROWS = 'tbody tr:nth-child(n + 31)'

export type Tally = { runs: number; passed: number; undecided: number; findings: number }

/** One line for every rule that is broken, with the scheme and where. */
export async function judge(page: Page, tally: Tally): Promise<string[]> {
  const found: string[] = []
  for (const colorScheme of ['light', 'dark'] as const) {
    // Without motion, since a colour on its way to another is measured on its way.
    await page.emulateMedia({ colorScheme, reducedMotion: 'reduce' })
    const axe =
      colorScheme === 'light'
        ? new AxeBuilder({ page }).options({ ...RESULTS, runOnly: { type: 'tag', values: TAGS } })
        : // The page has axe since the light; dark changes colours alone (app/_ui/tokens.css).
          new AxeBuilder({ page, axeSource: ';' }).options({
            ...RESULTS,
            runOnly: { type: 'rule', values: COLOUR_RULES },
          })
    const { violations, passes, incomplete } = await axe.exclude(FURTHER_ROWS).setLegacyMode().analyze()
    tally.runs++
    tally.passed += passes.length
    tally.undecided += incomplete.reduce((sum, rule) => sum + rule.nodes.length, 0)
    for (const { id, help, nodes } of violations) {
      const where = nodes.slice(0, 3).map(({ target, any }) => `${target.join(' ')} ${any[0]?.message ?? ''}`)
      found.push(`${colorScheme}, ${id}: ${help}, ${nodes.length} times: ${where.join('; ')}`)
    }
  }
  tally.findings += found.length
  return found
}

export async function unfold(page: Page): Promise<void> {
  await page.locator('details:not([open])').evaluateAll(all => {
    for (const one of all) one.setAttribute('open', '')
  })
}

/** What reaches past the right edge, when anything does. */
export async function sideways(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const { clientWidth, scrollWidth } = document.documentElement
    const isCut = getComputedStyle(document.documentElement).overflowX !== 'visible'
    if (scrollWidth <= clientWidth && !isCut) return []
    const past = [...document.body.querySelectorAll('*')].filter(
      one => one.getBoundingClientRect().right > clientWidth + 0.5,
    )
    const named = past.slice(0, 4).map(one => `${one.tagName.toLowerCase()}.${one.className}`)
    return [`${clientWidth} px wide scrolls to ${scrollWidth}: ${named.join(', ')}`]
  })
}

/** The first thing that the keyboard reaches leads past the head to the page's matter. */
export async function skipFaults(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const first = document.querySelector(
      'a[href], button, input:not([type="hidden"]), select, textarea, summary',
    )
    const leads =
      first?.getAttribute('href') === '#page' && document.querySelector('main#page[tabindex="-1"]')
    return leads ? [] : [`the first thing to reach is ${first?.outerHTML.slice(0, 80)}`]
  })
}

import type { CSSProperties } from 'react'
import { checkWords } from '#lib/words/ribbon.ts'
import { stemRows, textWidth } from './labels.ts'
import type { RibbonAxis, RibbonCheck, RibbonData } from './ribbon-data.ts'
import { percentOf } from './scale.ts'

type Part = { readonly data: RibbonData; readonly axis: RibbonAxis }

/** The narrowest picture on which the texts are shown. */
const TEXTS_FROM_PX = 540
const ROW_PX = 18

function shown(data: RibbonData, axis: RibbonAxis): (RibbonCheck & { at: number })[] {
  return data.checks
    .map(check => ({ ...check, at: percentOf(check.day, axis) }))
    .filter(({ at }) => at >= 0 && at <= 100)
    .sort((a, b) => a.at - b.at)
}

/** A stem a check: ring planned, dot done, diamond due or late. */
export function CheckStems({ data, axis }: Part) {
  return shown(data, axis).map(check => (
    <span
      key={`${check.day}-${check.text}`}
      className={`ck ck-${check.kind}`}
      style={{ left: `${check.at}%` }}
    >
      <i />
    </span>
  ))
}

/** What each check is, above the profile, so that no text crosses a stem. */
export function CheckTexts({ data, axis }: Part) {
  const checks = shown(data, axis).map(check => ({
    ...check,
    words: checkWords(check.text, check.day, check.kind),
  }))
  const rows = stemRows(
    checks.map(check => ({ at: check.at, width: textWidth(check.words) + 6 })),
    TEXTS_FROM_PX,
  )
  const count = 1 + Math.max(0, ...rows.map(row => row ?? 0))
  if (checks.length === 0) return null
  return (
    <div className="rb-checks" style={{ height: `${count * ROW_PX + 12}px` }}>
      {checks.map((check, i) => {
        const row = rows[i]
        if (row === undefined) return null
        const style = { left: `${check.at}%`, '--row': row } as CSSProperties
        return (
          <span key={`${check.day}-${check.text}`} className={`ck-text ck-text-${check.kind}`} style={style}>
            {check.words}
          </span>
        )
      })}
    </div>
  )
}

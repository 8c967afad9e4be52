import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { HIGH_RISK_INFLUENZA_GROUPS } from '#lib/domain/species.ts'
import { readReference } from '#seed/load/csv.ts'
import { readTradeFromReference } from '#seed/load/knowledge.ts'
import { referenceRows } from '#seed/load/reference.ts'

const tables = new Map(referenceRows())
const rows = (table: string) => tables.get(table) ?? []

describe('the reference tables', () => {
  // seed/reference/species.md: "93 species (70 birds, 23 mammals), 10 stand-ins, 41 groups".
  it('hold what their notes say they hold', () => {
    const named = rows('species').filter(row => row['is_stand_in'] === false)
    expect(named.filter(row => row['class'] === 'bird')).toHaveLength(70)
    expect(named.filter(row => row['class'] === 'mammal')).toHaveLength(23)
    expect(rows('species').filter(row => row['is_stand_in'])).toHaveLength(10)
    expect(rows('species_group')).toHaveLength(41)
    expect(rows('care_plan_stage')).toHaveLength(readReference('plans').length)
    expect(rows('care_plan_gate')).toHaveLength(readReference('gates').length)
  })

  it('lose no mark and no number on the way', () => {
    const plans = readReference('plans')
    rows('care_plan_stage').forEach((row, at) => {
      for (const column of [
        'mark_size',
        'mark_durations',
        'mark_exit_times',
        'mark_shares',
        'mark_minutes',
      ]) {
        expect(row[column]).toBe(plans[at]![column])
      }
      expect(row['goes_on']).toBe(Number(plans[at]!['goes_on']))
    })
    for (const row of rows('species_group')) expect(row['stock_mark']).not.toBe('')
    for (const row of rows('reference_key')) expect(row['mark']).not.toBe('')
  })

  it('give every licence the day on which it was last reviewed', () => {
    for (const row of rows('reference_key')) {
      expect(row['reviewed_on'] !== null).toBe(row['kind'] === 'licence')
    }
  })

  it('count every group with the handling key as high risk for bird flu, the rule of the desk among them', () => {
    const marked = rows('species_group').filter(row => row['is_high_risk_influenza'])
    const slugs = marked.map(row => row['slug'])
    expect(slugs).toEqual(expect.arrayContaining([...HIGH_RISK_INFLUENZA_GROUPS]))
    expect(slugs).not.toContain('pigeons-doves')
    expect(slugs).not.toContain('hedgehogs')
  })

  it('are read by the domain as they are', () => {
    const trade = readTradeFromReference()
    expect(trade.plans).toHaveLength(rows('care_plan').length)
    expect(trade.speciesBySlug.get('kestrel')?.flight_length_min_m).toBe(4.9)
  })

  it('keep the notes that say where numbers come from beside the tables', () => {
    const note = readFileSync(new URL('../../../seed/reference/plans.md', import.meta.url), 'utf8')
    expect(note).toContain('## Marks')
  })
})

import { expect, it } from 'vitest'
import type { RuledOut } from '#lib/domain/option.ts'
import { ruledOutSentence } from '#lib/words/ruled-out.ts'
import { TODAY } from '#tests/support/placement.ts'

const ash = { kind: 'centre', id: 'ash', name: 'Ashdown Quay' } as const
const vets = { kind: 'practice', id: 'p1', name: 'Marl Cross vets' } as const
const keep = { kind: 'keep till morning' } as const

const CUTS: readonly [RuledOut, string][] = [
  [{ who: ash, rule: 'inactive' }, 'Ashdown Quay is switched off in setup.'],
  [
    { who: ash, rule: 'takes no such group', group: 'Large gulls' },
    'Ashdown Quay does not take large gulls.',
  ],
  [
    { who: ash, rule: 'movement stop', since: TODAY - 6, covers: 'birds' },
    'Ashdown Quay takes and sends no birds: movement stop since 19 November.',
  ],
  [
    { who: ash, rule: 'closed to high risk' },
    'Ashdown Quay is closed to animals of high risk for avian influenza.',
  ],
  [
    { who: ash, rule: 'isolation full' },
    'Ashdown Quay has no isolation free, and this animal starts in isolation.',
  ],
  [
    { who: ash, rule: 'no housing', stage: 'limited activity', housing: 'sheltered-aviary' },
    'Ashdown Quay has no sheltered aviary that fits, which limited activity needs.',
  ],
  [
    { who: ash, rule: 'no more', until: { day: TODAY + 3, clock: '08:00' } },
    'Ashdown Quay says no more until 08:00 on Sat 28 Nov.',
  ],
  [
    { who: ash, rule: 'feeding rounds', can: 8, needs: 28 },
    'Ashdown Quay can do 8 feeding rounds a day, and this animal needs about 28.',
  ],
  [
    { who: ash, rule: 'feeding rounds', can: 0, needs: 28 },
    'Ashdown Quay hand-feeds no more for now, and this animal is fed by hand.',
  ],
  [{ who: ash, rule: 'shut', until: null }, 'Ashdown Quay is shut, and nobody opens.'],
  [
    { who: ash, rule: 'shut', until: { day: TODAY + 1, clock: '08:00' } },
    'Ashdown Quay is shut until 08:00 tomorrow.',
  ],
  [{ who: vets, rule: 'no cover now' }, 'Marl Cross vets has no vet on duty now.'],
  [
    { who: keep, rule: 'no vet agreed' },
    'Keeping it till morning needs a vet’s word: write down who agreed, and when to call back.',
  ],
  [
    { who: keep, rule: 'no centre follows' },
    'Keeping it till morning leads nowhere: no centre can take it in the morning.',
  ],
  [{ who: keep, rule: 'not caught' }, 'Keeping it till morning needs somebody who has caught it.'],
  [
    { who: keep, rule: 'nobody to keep it' },
    'Keeping it till morning needs a finder, or a practice that keeps it.',
  ],
  [
    { who: { kind: 'admission' }, rule: 'notifiable suspect', disease: 'avian influenza' },
    'Bringing it in waits for the authority’s leave: avian influenza is suspected.',
  ],
  [
    { who: { kind: 'move', stage: 'critical care' }, rule: 'in isolation', next: 'quarantine' },
    'A move after critical care is not offered: quarantine follows in isolation, and nothing in isolation changes centres.',
  ],
]

it.each(CUTS)('says $rule in one sentence', (cut, sentence) => {
  expect(ruledOutSentence(cut, TODAY)).toBe(sentence)
})

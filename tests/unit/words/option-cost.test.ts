import { expect, it } from 'vitest'
import type { CostReason } from '#lib/domain/option.ts'
import { againstWords, termDetail, termLabel } from '#lib/words/option-cost.ts'

const ash = { id: 'ash', name: 'Ashdown Quay' }
const birch = { id: 'birch', name: 'Birchover' }
const inStage = { stage: 'unlimited activity', housing: 'flight-aviary', centre: ash, undamped: 3.2 } as const

const REASONS: readonly [CostReason, string, string, string][] = [
  [
    { kind: 'no place on arrival', centre: ash, short: 1, weight: 4, isTonight: true },
    'No proper place tonight',
    '1 without a place × 4',
    'Ashdown Quay has no proper place free tonight',
  ],
  [
    { kind: 'no place on arrival', centre: ash, short: 0.25, weight: 4, isTonight: false },
    'No proper place on arrival',
    '0.25 without a place × 4',
    'Ashdown Quay may have no proper place free tomorrow',
  ],
  [
    { kind: 'later stage', ...inStage, damping: 0.4 },
    'Unlimited activity',
    '3.2 days short × 0.4',
    'Ashdown Quay may have no flight aviary free during unlimited activity',
  ],
  [
    { kind: 'first stage', ...inStage, damping: null },
    'Unlimited activity',
    'no flight aviary there: every day counts',
    'Ashdown Quay has no flight aviary for unlimited activity',
  ],
  [
    { kind: 'transfer', from: ash, to: birch, probability: 0.8, weight: 2 },
    'Move to Birchover',
    '80\u00a0% × 2',
    'it is moved on to Birchover if it lives to need it, 80\u00a0%',
  ],
  [
    { kind: 'transfer', from: ash, to: birch, probability: 1, weight: 2 },
    'Move to Birchover',
    '100\u00a0% × 2',
    'it has to be moved on to Birchover',
  ],
  [
    { kind: 'drive', to: ash, km: 11.2, kmPerPlaceDay: 40 },
    'Drive now',
    '11 km, 40 km a place-day',
    'the drive to Ashdown Quay is 11 km',
  ],
  [
    { kind: 'later drive', from: ash, to: birch, km: 64, probability: 0.5, kmPerPlaceDay: 40 },
    'Drive to Birchover',
    '64 km × 50\u00a0%, 40 km a place-day',
    'the later drive to Birchover is 64 km',
  ],
  [{ kind: 'kept till morning' }, 'Kept till morning', 'policy of ours', 'it waits until the morning'],
  [
    { kind: 'redirected' },
    'Sent outside the network',
    'policy of ours',
    'the network would not care for it itself',
  ],
  [{ kind: 'refused' }, 'Refused', 'policy of ours', 'nobody of ours would take it in'],
]

it.each(REASONS)('says $kind in its name, its figures and its reason', (reason, label, detail, against) => {
  expect([termLabel(reason), termDetail(reason), againstWords(reason)]).toEqual([label, detail, against])
})

/**
 * When in the year animals of a group come, and how many at once: what each centre has entered in setup.
 * Shares are of the year, January first. Marks: D, the constructed vector of trade.md 3.2, whose quarter sums repeat
 * published season shares (R:S22); R:S32 for the hedgehogs' September, October and March; the rest is common practice
 * turned into numbers by us ("ours").
 */
export type YearShape = {
  readonly months: readonly number[]
  readonly sizes: readonly number[]
  readonly mark: string
}

const ALL_SPECIES = [2.3, 2.1, 3.5, 7.5, 15, 18.8, 17.5, 12.5, 8.5, 6, 3.7, 2.6]
const GARDEN = [1.8, 1.8, 3.2, 8.5, 17.5, 21, 19, 12, 6, 4, 3, 2.2]
const ALONE = [1]
const OFTEN_ALONE = [0.92, 0.05, 0.03]

const SHAPES: Readonly<Record<string, YearShape>> = {
  'small-songbirds': { months: GARDEN, sizes: [0.76, 0.05, 0.06, 0.07, 0.06], mark: 'ours, after D and CP' },
  'thrushes-starlings': { months: GARDEN, sizes: [0.8, 0.06, 0.07, 0.07], mark: 'ours, after D and CP' },
  swallows: {
    months: [0, 0, 0.5, 3, 12, 23, 27, 21, 11, 2.5, 0, 0],
    sizes: [0.7, 0.08, 0.1, 0.12],
    mark: 'ours, CP',
  },
  swifts: { months: [0, 0, 0, 1, 13, 35, 36, 14, 1, 0, 0, 0], sizes: [0.85, 0.1, 0.05], mark: 'ours, CP' },
  'pigeons-doves': { months: [3, 3, 5, 9, 12, 13, 13, 13, 12, 9, 5, 3], sizes: [0.8, 0.2], mark: 'ours, CP' },
  corvids: {
    months: [2.5, 2.5, 3.5, 9, 26, 23, 13, 7, 5, 3.5, 2.5, 2.5],
    sizes: [0.88, 0.08, 0.04],
    mark: 'ours, CP',
  },
  'gulls-large': {
    months: [2, 2, 2, 3, 6, 20, 31, 19, 7, 4, 2, 2],
    sizes: [0.9, 0.08, 0.02],
    mark: 'ours, CP',
  },
  'gulls-small': { months: [5, 5, 4, 5, 9, 19, 20, 13, 7, 5, 4, 4], sizes: ALONE, mark: 'ours, CP' },
  swans: {
    months: [8, 7, 8, 9, 10, 9, 11, 11, 10, 6, 5, 6],
    sizes: [0.9, 0.05, 0.05],
    mark: 'ours, R:S69 for July to September',
  },
  geese: {
    months: [5, 5, 7, 13, 18, 16, 11, 8, 6, 4, 4, 3],
    sizes: [0.88, 0.04, 0.04, 0.04],
    mark: 'ours, CP',
  },
  ducks: {
    months: [2, 2, 5, 14, 23, 21, 15, 8, 4, 2, 2, 2],
    sizes: [0.62, 0.06, 0.05, 0.06, 0.07, 0.06, 0.05, 0.03],
    mark: 'ours, CP',
  },
  'buzzards-kites-harriers': {
    months: [7, 7, 8, 8, 8, 9, 12, 12, 9, 8, 6, 6],
    sizes: ALONE,
    mark: 'ours, CP',
  },
  falcons: { months: [4, 4, 5, 6, 9, 19, 21, 12, 7, 5, 4, 4], sizes: OFTEN_ALONE, mark: 'ours, CP' },
  hawks: { months: [7, 6, 7, 7, 7, 9, 14, 14, 10, 8, 6, 5], sizes: ALONE, mark: 'ours, CP' },
  owls: { months: [6, 6, 6, 10, 14, 12, 11, 10, 8, 7, 5, 5], sizes: OFTEN_ALONE, mark: 'ours, CP' },
  hedgehogs: {
    months: [2.5, 1.5, 0.96, 3.6, 6.5, 9, 9.5, 10, 25.3, 22.14, 6.5, 2.5],
    sizes: [0.86, 0.03, 0.04, 0.04, 0.03],
    mark: 'R:S32 for March, September, October; other months ours',
  },
  bats: { months: [1, 1, 2, 5, 9, 26, 27, 13, 7, 5, 2.5, 1.5], sizes: ALONE, mark: 'ours, CP' },
  'rabbits-hares': {
    months: [3, 4, 10, 15, 17, 16, 13, 9, 5, 3, 3, 2],
    sizes: [0.85, 0.06, 0.05, 0.04],
    mark: 'ours, CP',
  },
  foxes: {
    months: [4, 5, 17, 24, 16, 8, 5, 4, 5, 4, 4, 4],
    sizes: [0.86, 0.06, 0.05, 0.03],
    mark: 'ours, CP',
  },
  badgers: { months: [6, 17, 19, 15, 12, 7, 5, 4, 4, 4, 4, 3], sizes: ALONE, mark: 'ours, CP' },
  deer: { months: [4, 4, 4, 6, 22, 24, 12, 6, 5, 5, 4, 4], sizes: ALONE, mark: 'ours, CP' },
  auks: {
    months: [20, 19, 12, 4, 3, 5, 9, 3, 2, 3, 8, 12],
    sizes: [0.85, 0.08, 0.04, 0.03],
    mark: 'ours, CP',
  },
  seals: { months: [8, 5, 3, 2, 2, 11, 16, 8, 7, 11, 15, 12], sizes: ALONE, mark: 'ours, CP' },
  tubenoses: { months: [4, 3, 2, 2, 2, 3, 5, 18, 38, 15, 5, 3], sizes: ALONE, mark: 'ours, CP' },
}

const ELSE: YearShape = { months: ALL_SPECIES, sizes: ALONE, mark: 'D after R:S22' }

/** The shape of a group's year; months sum to 1, sizes too. */
export function yearShapeOf(group: string): YearShape {
  const { months, sizes, mark } = SHAPES[group] ?? ELSE
  return { months: toOne(months), sizes: toOne(sizes), mark }
}

function toOne(shares: readonly number[]): number[] {
  const total = shares.reduce((sum, share) => sum + share, 0)
  return shares.map(share => share / total)
}

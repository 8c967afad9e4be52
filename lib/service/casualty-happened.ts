/**
 * What happened to one animal, newest first: facts of keeping, stages, checks, weights, notes, plans, decisions.
 * Promise: each entry once, in the order of its event; corrections stand beside what they correct. Internal to
 * lib/service: no rows of its own.
 */
import type { CheckRow } from '#lib/db/casualty.ts'
import type {
  DecisionRow,
  IdentifiedRow,
  KeepingRow,
  NoteRow,
  PlanRow,
  StageFactRow,
  WeightRow,
} from '#lib/db/casualty-happened.ts'
import type { Displaced } from '#lib/db/check.ts'
import type { Entered } from '#lib/db/entered.ts'
import type { MetThen } from '#lib/db/late-facts.ts'
import type { MembershipRow } from '#lib/db/membership.ts'
import type { RoundEntry } from '#lib/db/round-entry.ts'
import type { SurgeryRow } from '#lib/db/surgery.ts'
import type { VetWordRow } from '#lib/db/vet-word.ts'
import type { CareStage } from '#lib/domain/housing.ts'
import type { PlacementOption } from '#lib/domain/option.ts'
import type { Span } from '#lib/domain/precision.ts'
import type { Happening } from '#lib/words/casualty-happened.ts'

export type Happened = {
  readonly key: string
  readonly at: Date
  readonly by: string | null
  /** When it was entered, where that was well after it happened. */
  readonly enteredAt: Date | null
  readonly within: Span | null
  readonly what: Happening
  readonly state: 'as it is' | 'corrected' | 'taken back' | 'takes back' | 'waits' | 'set aside'
  /** A fact of keeping that holds, so it can be taken back. */
  readonly keepingId: number | null
  /** Others that were recorded in the same place at that time, so that it had none. */
  readonly met: readonly MetThen[]
  /** The newest line of how it is counted with others, so it can be taken back. */
  readonly groupingId: number | null
  /** It moved with such a line, which takes both back. */
  readonly isWithGrouping: boolean
  readonly shown: readonly { readonly option: PlacementOption; readonly isTaken: boolean }[]
}

export type HistoryRows = {
  readonly keepings: readonly KeepingRow[]
  readonly stageFacts: readonly StageFactRow[]
  readonly checks: readonly CheckRow[]
  readonly weights: readonly WeightRow[]
  readonly notes: readonly NoteRow[]
  readonly surgeries: readonly SurgeryRow[]
  readonly vetWords: readonly VetWordRow[]
  readonly displaced: readonly Displaced[]
  readonly plans: readonly PlanRow[]
  readonly identified: readonly IdentifiedRow[]
  readonly decisions: readonly DecisionRow[]
  /** What was tapped on the round and does not stand. */
  readonly taps: readonly RoundEntry[]
  readonly metThen: readonly MetThen[]
  readonly memberships: readonly MembershipRow[]
}

const LATE_MS = 60 * 60_000

/** No rows: everything in order, newest first. */
export function happenedOf(rows: HistoryRows): Happened[] {
  return [
    ...rows.decisions.map(decisionOf),
    ...rows.identified.map(identifiedOf),
    ...rows.plans.map(planOf),
    ...rows.memberships.map((row, at) => groupedOf(row, at === rows.memberships.length - 1)),
    ...keepingsOf(rows),
    ...rows.stageFacts.map(fact => stageOf(fact, rows.plans.at(-1))),
    ...rows.checks.flatMap(check => checkOf(check, rows.displaced)),
    ...rows.surgeries.map(surgeryOf),
    ...rows.vetWords.map(vetWordOf),
    ...rows.weights.map((weight, at) => weightOf(weight, at)),
    ...rows.taps.map(tapOf),
    ...rows.notes.map((note, at) => ({
      ...entry(`note-${at}`, note, { by: note.by, at: note.enteredAt }, { kind: 'note', words: note.words }),
    })),
  ].sort((a, b) => b.at.getTime() - a.at.getTime())
}

function tapOf(tap: RoundEntry): Happened {
  const entered = { by: tap.by, at: tap.enteredAt }
  const said = entry(`tap-${tap.id}`, { at: tap.happenedAt }, entered, { kind: 'tap', tap })
  return { ...said, state: TAP_STATES[tap.state] }
}

const TAP_STATES = {
  stands: 'as it is',
  'taken-back': 'taken back',
  waits: 'waits',
  'set-aside': 'set aside',
  'put-right': 'as it is',
} as const satisfies Record<RoundEntry['state'], Happened['state']>

type When = { readonly at: Date; readonly within?: Span | null }

function entry(key: string, { at, within = null }: When, entered: Entered, what: Happening): Happened {
  const isLate = entered.at.getTime() - at.getTime() > LATE_MS
  return {
    key,
    at,
    by: entered.by,
    enteredAt: isLate ? entered.at : null,
    within,
    what,
    state: 'as it is',
    keepingId: null,
    met: [],
    groupingId: null,
    isWithGrouping: false,
    shown: [],
  }
}

function groupedOf(row: MembershipRow, isNewest: boolean): Happened {
  const { id, entered, isTakenBack, kind: how, withReference, animals, toldBy } = row
  const what: Happening = { kind: 'group', how, withReference, animals, toldBy }
  const said = entry(`membership-${id}`, entered, entered, what)
  if (how === 'taken-back') return { ...said, state: 'takes back' }
  return { ...said, state: isTakenBack ? 'taken back' : 'as it is', groupingId: isNewest ? id : null }
}

function keepingsOf({ keepings, metThen, memberships }: HistoryRows): Happened[] {
  const grouping = memberships.at(-1)
  const standing = keepings.filter(one => !one.isReplaced && !one.isVoid)
  return keepings.map(row => {
    const before = standing.findLast(one => one.since < row.since)
    const { keeper, keeperName, centre, enclosure, outcome, overrideReason } = row
    const isArrival = before?.centreId !== row.centreId
    const what: Happening = {
      kind: 'keeping',
      isArrival,
      overrideReason,
      keeper,
      keeperName,
      centre,
      enclosure,
      outcome,
    }
    return {
      ...entry(`keeping-${row.id}`, { at: row.since, within: row.within }, row.entered, what),
      state: stateOf(row, keepings),
      keepingId: row.isReplaced || row.isVoid ? null : row.id,
      isWithGrouping: row === standing.at(-1) && row.entryId === grouping?.entryId,
      met: metThen.filter(({ keepingId }) => keepingId === row.id),
    }
  })
}

function stateOf(row: KeepingRow, all: readonly KeepingRow[]): Happened['state'] {
  if (row.isVoid) return 'takes back'
  if (!row.isReplaced) return 'as it is'
  return all.some(one => one.supersedes === row.id && one.isVoid) ? 'taken back' : 'corrected'
}

function stageOf(fact: StageFactRow, plan: PlanRow | undefined): Happened {
  const stage: CareStage | null = plan?.stages.find(({ no }) => no === fact.stageNo)?.stage ?? null
  return entry(`stage-${fact.id}`, fact, fact.entered, { kind: fact.kind, stage })
}

function checkOf(check: CheckRow, displaced: readonly Displaced[]): Happened[] {
  if (check.doneAt === null) return []
  const { slug, what, result, found, signedBy, doneAt, doneWithin } = check
  return [
    entry(
      `check-${check.id}`,
      { at: doneAt, within: doneWithin },
      { by: check.doneBy, at: check.enteredAt ?? doneAt },
      {
        kind: 'check',
        slug,
        what,
        passed: check.passed === true,
        result,
        found,
        signedBy,
        displaced: displaced.filter(one => one.checkId === check.id),
      },
    ),
  ]
}

function weightOf(weight: WeightRow, at: number): Happened {
  const weighed = entry(`weight-${at}`, weight, weight.entered, { kind: 'weight', grams: weight.grams })
  return weight.isTakenBack ? { ...weighed, state: 'taken back' } : weighed
}

function surgeryOf(row: SurgeryRow): Happened {
  const done = entry(`surgery-${row.id}`, row, row.entered, {
    kind: 'surgery',
    side: row.side,
    what: row.what,
  })
  return row.isTakenBack ? { ...done, state: 'taken back' } : done
}

function vetWordOf(row: VetWordRow): Happened {
  const { id, inDays, saidBy } = row
  const said = entry(`vet-word-${id}`, row, row.entered, { kind: 'vet-word', inDays, saidBy })
  return row.isTakenBack ? { ...said, state: 'taken back' } : said
}

function planOf(plan: PlanRow): Happened {
  const { versionNo, because, entered } = plan
  return entry(`plan-${versionNo}`, entered, entered, { kind: 'plan', versionNo, because })
}

function identifiedOf(row: IdentifiedRow): Happened {
  const { species, age, entered } = row
  const named = entry(`identified-${row.id}`, entered, entered, { kind: 'identified', species, age })
  return row.isReplaced ? { ...named, state: 'corrected' } : named
}

function decisionOf(row: DecisionRow): Happened {
  const { options } = row.ranked
  const rank = options.findIndex(({ key }) => key === row.takenKey) + 1
  const what: Happening = { kind: 'decision', rank, shown: options.length, reason: row.reason }
  return {
    ...entry(`decision-${row.id}`, row, { by: row.by, at: row.at }, what),
    shown: options.map(option => ({ option, isTaken: option.key === row.takenKey })),
  }
}

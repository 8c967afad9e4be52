/**
 * The answer to a call: every option that no rule cuts, by expected welfare cost, and every cut with its rule.
 * Promise: the same question and forecast give the same answer in the same order; a closed door is never "admit now";
 * a suspected notifiable disease is never admitted before the authority's leave; advice comes first only by the
 * leave-alone rule and, as a refusal, last. Units: place-days.
 */
import type { PlacementOption, RankedOptions, RuledOut, RuledOutReason } from '#lib/domain/option.ts'
import { compare } from './comparison.ts'
import type { CentreNow, Outlook, PlacementQuestion, PracticeNow } from './model.ts'
import { adviceOption, examineOutsideOption, redirectOption, reportOption } from './other-option.ts'
import {
  barsExamination,
  barsKeeping,
  barsOutside,
  barsPractice,
  barsTonight,
  movesRuledOut,
} from './rule.ts'
import { admissionOptions, keepOption, pricedStay, vetOption } from './stay-option.ts'
import { type ArrivalMode, stayTable } from './stay-table.ts'

/** Totals are compared to this many parts of a place-day, so that rounding never decides an order. */
const PARTS_COMPARED = 1e9

/**
 * Ranks what can be done now. The forecast's horizon needs at least two days and its first day must be the question's
 * today; at least one stage. Throws RangeError otherwise.
 */
export function rankOptions(asked: PlacementQuestion, outlook: Outlook): RankedOptions {
  if (outlook.today !== asked.today) {
    throw new RangeError(`the forecast needs to begin on day ${asked.today}, got ${outlook.today}`)
  }
  if (outlook.horizonDays < 2)
    throw new RangeError(`horizonDays needs at least 2, got ${outlook.horizonDays}`)
  const question = { ...asked, centres: [...asked.centres].sort(byName) }
  const { suspect } = question
  const found =
    suspect !== null && !suspect.hasLeave
      ? suspectOptions(question, suspect.disease)
      : placementOptions(question, outlook)
  return { options: withComparisons(markNearest([...found.options].sort(inOrder))), ruledOut: found.ruledOut }
}

function byName(a: { name: string; id: string }, b: { name: string; id: string }): number {
  if (a.name !== b.name) return a.name < b.name ? -1 : 1
  return a.id < b.id ? -1 : 1
}

type Cut = (who: RuledOut['who'], reason: RuledOutReason | null) => boolean

/** Collects what is ruled out; says whether it was. */
function cutter(): { readonly ruledOut: RuledOut[]; readonly isCut: Cut } {
  const ruledOut: RuledOut[] = []
  const isCut: Cut = (who, reason) => {
    if (reason !== null) ruledOut.push({ who, ...reason })
    return reason !== null
  }
  return { ruledOut, isCut }
}

function placementOptions(question: PlacementQuestion, outlook: Outlook): RankedOptions {
  const { centres, practices, outside } = question
  const stay = (mode: ArrivalMode) => pricedStay(question, outlook, stayTable(question, outlook, mode))
  const { ruledOut, isCut } = cutter()
  const options: PlacementOption[] = []

  const tonight = stay('tonight')
  for (const [at, centre] of centres.entries()) {
    if (!isCut(whoOf('centre', centre), barsTonight(question, centre))) {
      options.push(...admissionOptions(tonight, at))
    }
  }
  const seeing = practices.filter(each => !isCut(whoOf('practice', each), barsPractice(question, each)))
  if (seeing.length > 0) {
    const afterVet = stay('after a vet')
    options.push(...seeing.map(practice => vetOption(afterVet, practice)))
  }
  if (!isCut({ kind: 'keep till morning' }, barsKeeping(question))) {
    const kept = keepOption(stay('tomorrow'))
    if (!isCut({ kind: 'keep till morning' }, kept === null ? { rule: 'no centre follows' } : null) && kept) {
      options.push(kept)
    }
  }
  const taking = outside.filter(place => !isCut(whoOf('outside', place), barsOutside(question, place)))
  options.push(...taking.map(place => redirectOption(question, place)), adviceOption(question))
  return { options, ruledOut: [...ruledOut, ...movesRuledOut(question)] }
}

function suspectOptions(question: PlacementQuestion, disease: string): RankedOptions {
  const { ruledOut, isCut } = cutter()
  isCut({ kind: 'admission' }, { rule: 'notifiable suspect', disease })
  const atCentres = question.centres.flatMap(centre =>
    isCut(whoOf('centre', centre), barsExamination(question, centre))
      ? []
      : [examinationAt(question, centre)],
  )
  const atPractices = question.practices.flatMap(practice =>
    isCut(whoOf('practice', practice), barsPractice(question, practice))
      ? []
      : [examinationBy(question, practice)],
  )
  const options = [...atCentres, ...atPractices, reportOption(question), adviceOption(question)]
  return { options, ruledOut }
}

function examinationAt(question: PlacementQuestion, centre: CentreNow): PlacementOption {
  const { id, name, phone, road, door } = centre
  const at = { road, door: door.kind === 'shut' ? null : door }
  return examineOutsideOption(question, { kind: 'centre', id, name, phone }, at)
}

function examinationBy(question: PlacementQuestion, practice: PracticeNow): PlacementOption {
  const { id, name, phone, road } = practice
  return examineOutsideOption(question, { kind: 'practice', id, name, phone }, { road, door: null })
}

function whoOf(kind: 'centre' | 'practice' | 'outside', { id, name }: { id: string; name: string }) {
  return { kind, id, name }
}

/** By rule, then by cost, then by name and key. */
function inOrder(a: PlacementOption, b: PlacementOption): number {
  const byRule = placeByRule(a) - placeByRule(b)
  if (byRule !== 0) return byRule
  const byCost = Math.round(a.total * PARTS_COMPARED) - Math.round(b.total * PARTS_COMPARED)
  if (byCost !== 0) return byCost
  const [first, second] = [`${a.to?.name ?? ''}\n${a.key}`, `${b.to?.name ?? ''}\n${b.key}`]
  if (first === second) return 0
  return first < second ? -1 : 1
}

function placeByRule({ orderRule }: PlacementOption): number {
  if (orderRule === 'leave alone') return 0
  return orderRule === 'refusal comes last' ? 2 : 1
}

/** Marks the admissions at the nearest centre that can take the animals now. */
function markNearest(options: readonly PlacementOption[]): PlacementOption[] {
  const isAdmission = ({ kind }: PlacementOption) => kind === 'admit' || kind === 'admit and move'
  const nearest = Math.min(...options.filter(isAdmission).map(option => option.travel?.km ?? Infinity))
  return options.map(option => ({
    ...option,
    isNearest: isAdmission(option) && option.travel?.km === nearest,
  }))
}

/** Each against the first; the first against the whole stay at the nearest centre, or against the second. */
function withComparisons(options: readonly PlacementOption[]): PlacementOption[] {
  const [first, second] = options
  if (first === undefined) return []
  const beside = first.isNearest
    ? second
    : (options.find(option => option.isNearest && option.kind === 'admit') ?? second)
  return options.map((option, at) => {
    const other = at === 0 ? beside : first
    return other === undefined ? option : { ...option, comparison: compare(option, other) }
  })
}

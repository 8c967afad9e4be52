/**
 * What a form accepts the table accepts, on both sides of every limit of the setup schemas. Lower limits of numbers
 * stand in limits-agreement.test.ts; here are upper limits, lengths of texts, lists, and rules between fields.
 */
import { beforeAll, describe, expect, it } from 'vitest'
import type { z } from 'zod'
import { yearArrivalsFields } from '#lib/domain/arrivals.ts'
import {
  CHECKERS,
  carePlan,
  GATE_ANCHORS,
  GATE_BARS,
  planGate,
  planStage,
  SEVERITIES,
  stageMarks,
  TREATMENTS,
} from '#lib/domain/care-plan.ts'
import { stageForm } from '#lib/domain/care-plan-form.ts'
import { centreFields, movementStop, room, standingOffer, travel } from '#lib/domain/centre.ts'
import { closure } from '#lib/domain/closure.ts'
import { enclosureFields, STOCK_MAX } from '#lib/domain/enclosure.ts'
import { exitShares, monthDay } from '#lib/domain/estimate.ts'
import { CARE_STAGES } from '#lib/domain/housing.ts'
import { personFields } from '#lib/domain/person.ts'
import { policyFields } from '#lib/domain/policy.ts'
import { outsidePlace, practiceFields } from '#lib/domain/practice.ts'
import { database, undone } from '#tests/support/database.ts'
import { makeWorld } from '#tests/support/heart.ts'
import { addOneOfEach, copyOf } from '#tests/support/one-of-each.ts'

type Case = readonly [column: string, schema: z.ZodType, values: readonly unknown[]]
type Rest = Readonly<Record<string, unknown>>

beforeAll(async () => {
  const client = await database.pool.connect()
  await makeWorld(client)
  await addOneOfEach(client)
  client.release()
})

/** Whether the table takes a row; a refusal must be one of a check. */
async function isTaken(statement: string, values: unknown[] = []): Promise<boolean> {
  return undone(async client => {
    try {
      await client.query(statement, values)
      return true
    } catch (thrown) {
      expect(thrown).toMatchObject({ code: '23514' })
      return false
    }
  })
}

async function bothSay(table: string, [column, schema, values]: Case, rest: Rest): Promise<void> {
  const taken: boolean[] = []
  for (const value of values) taken.push(await isTaken(copyOf(table, { ...rest, [column]: value })))
  expect(values.map(value => schema.safeParse(value).success)).toEqual(taken)
  expect(new Set(taken)).toEqual(new Set([true, false]))
}

const text = (least: number, most: number) =>
  [least - 1, least, most, most + 1].filter(length => length >= 0).map(length => 'x'.repeat(length))
/** Around a whole and a broken upper limit. */
const whole = (most: number) => [most - 1, most, most + 1]
const broken = (most: number) => [most - 0.001, most, most + 0.001]
const blank = [' ', ' x ']
const name = [...text(1, 80), ...blank]

const { shape: offer } = standingOffer
const { shape: place } = outsidePlace
const { shape: gate } = planGate
const { shape: stage } = planStage
const stock = enclosureFields.stocking

const TABLES: readonly (readonly [string, Rest, readonly Case[]])[] = [
  [
    'centre',
    { name: 'another' },
    [
      ['name', centreFields.name, name],
      ['about', centreFields.about, text(0, 400)],
      ['phone', centreFields.phone, text(3, 40)],
      ['night_name', centreFields.nightName, [...name, null]],
      ['night_phone', centreFields.nightPhone, [...text(3, 40), null]],
    ],
  ],
  ['standing_offer', { centre_id: 2 }, [['places', offer.places, whole(1000)]]],
  [
    'travel',
    { from_centre_id: 2, to_centre_id: 1 },
    [
      ['km', travel.shape.km, [-0.001, ...broken(2000)]],
      ['minutes', travel.shape.minutes, [-0.001, ...broken(2880)]],
    ],
  ],
  [
    'movement_stop',
    { starts_at: '2027-01-01', ends_at: null },
    [['reason', movementStop.shape.reason, [...text(1, 300), ...blank]]],
  ],
  [
    'room',
    { name: 'another' },
    [
      ['name', room.shape.name, name],
      ['walking_order', room.shape.walkingOrder, [-1, 0, ...whole(10_000)]],
    ],
  ],
  [
    'enclosure',
    { name: 'another' },
    [
      ['name', enclosureFields.name, name],
      ['width_m', enclosureFields.widthM, broken(200)],
      ['length_m', enclosureFields.lengthM, broken(200)],
      ['height_m', enclosureFields.heightM, broken(200)],
      ['turnaround_min', enclosureFields.turnaroundMin, whole(86_400)],
      ['walking_order', enclosureFields.walkingOrder, [-1, 0, ...whole(10_000)]],
      [
        'features',
        enclosureFields.features,
        [[], ['x'.repeat(40)], ['x'.repeat(41)], [''], Array(20).fill('x'), Array(21).fill('x')],
      ],
    ],
  ],
  ['closure', {}, [['reason', closure.shape.reason, [...text(1, 300), ...blank]]]],
  [
    'practice',
    { name: 'another' },
    [
      ['name', practiceFields.name, name],
      ['phone', practiceFields.phone, text(3, 40)],
      ['night_phone', practiceFields.nightPhone, [...text(3, 40), null]],
      ['note', practiceFields.note, text(0, 400)],
    ],
  ],
  [
    'outside_place',
    { name: 'another' },
    [
      ['name', place.name, name],
      ['phone', place.phone, text(3, 40)],
      ['takes_words', place.takesWords, text(1, 200)],
      ['hours_words', place.hoursWords, text(1, 200)],
    ],
  ],
  [
    'person',
    { email: 'another@example.org' },
    [
      ['name', personFields.name, name],
      ['phone', personFields.phone, [...text(3, 40), null]],
    ],
  ],
  [
    'year_arrivals',
    { centre_id: 2 },
    [
      ['animals_per_year', yearArrivalsFields.animalsPerYear, broken(100_000)],
      ['mark', yearArrivalsFields.mark, text(1, 80)],
      [
        'month_shares',
        yearArrivalsFields.monthShares,
        [
          Array(12).fill(1 / 12),
          Array(12).fill(1 / 11),
          Array(11).fill(1 / 11),
          [1, ...Array(11).fill(0)],
          [2, -1, ...Array(10).fill(0)],
        ],
      ],
      [
        'event_sizes',
        yearArrivalsFields.eventSizes,
        [
          [1],
          [0.5, 0.5],
          [0.999998],
          [0.9999995],
          [1.1, -0.1],
          [],
          [...Array(59).fill(0), 1],
          [...Array(60).fill(0), 1],
        ],
      ],
    ],
  ],
  [
    'care_plan_stage',
    { stage_no: 2 },
    [
      ['min_size_note', stage.sizeNote, [...text(0, 400), null]],
      ['carer_minutes_day', stage.carerMinutesPerDay, [-0.001, 0, ...broken(1440), null]],
      ['note', stage.note, [...text(0, 400), null]],
      ['calendar_gate', stage.stateGate, [...text(0, 60), null]],
      [
        'gate_opens',
        monthDay,
        ['01-31', '02-29', '02-30', '13-01', '04-31', '00-10', '1-1', '12-31', '12-32'],
      ],
      ['gate_closes', monthDay.nullable(), ['06-30', '06-31', '06-00', null]],
    ],
  ],
  [
    'care_plan_gate',
    {},
    [
      ['check_slug', gate.check, text(1, 60)],
      ['what', gate.what, text(1, 400)],
      ['offset_days', gate.offsetDays, [-1, 0, ...whole(1500), null]],
      ['interval_days', gate.intervalDays, [0, 1, ...whole(1500), null]],
      ['mark', gate.mark, text(1, 80)],
      ['note', gate.note, [...text(0, 400), null]],
      ['stage', gate.stage, [...CARE_STAGES, 'holiday']],
      ['anchor', gate.anchor, [...GATE_ANCHORS, 'lunch']],
      ['required_for', gate.requiredFor, [...GATE_BARS, 'tea', null]],
      ['who', gate.who, [...CHECKERS, 'nobody']],
    ],
  ],
  [
    'care_plan',
    { id: 'another', treatment: 'surgical', severity: 'open' },
    [
      ['severity', carePlan.shape.severity, [...SEVERITIES, 'awful']],
      ['treatment', carePlan.shape.treatment, [...TREATMENTS.filter(one => one !== 'none'), 'prayer']],
    ],
  ],
]

const POLICY: readonly Case[] = [
  ['transfer_place_days', policyFields.transferPlaceDays, broken(1000)],
  ['km_per_place_day', policyFields.kmPerPlaceDay, broken(10_000)],
  ['refusal_place_days', policyFields.refusalPlaceDays, broken(1000)],
  ['redirect_place_days', policyFields.redirectPlaceDays, broken(1000)],
  ['keep_advice_place_days', policyFields.keepAdvicePlaceDays, broken(1000)],
  ['keep_tomorrow_place_days', policyFields.keepTomorrowPlaceDays, broken(1000)],
  ['keep_today_place_days', policyFields.keepTodayPlaceDays, broken(1000)],
  ['hold_minutes', policyFields.holdMinutes, whole(10_080)],
  ['ask_lapse_minutes', policyFields.askLapseMinutes, whole(10_080)],
  ['finder_days', policyFields.finderDays, whole(3650)],
]

describe('the limits of a form and of its table', () => {
  it.each(TABLES.flatMap(([table, rest, cases]) => cases.map(one => [table, one[0], one, rest] as const)))(
    '%s.%s agree',
    (table, _, one, rest) => bothSay(table, one, rest),
  )

  it.each(POLICY)('policy.%s agree', async (column, schema, values) => {
    const taken: boolean[] = []
    for (const value of values) taken.push(await isTaken(`update policy set ${column} = $1`, [value]))
    expect(values.map(value => schema.safeParse(value).success)).toEqual(taken)
    expect(new Set(taken)).toEqual(new Set([true, false]))
  })

  it('places of a company agree', async () => {
    const values = [0, 1, ...whole(STOCK_MAX)]
    const taken: boolean[] = []
    for (const places of values) taken.push(await isTaken('update stocking set places = $1', [places]))
    const typed = values.map(places => stock.safeParse([{ company: 'kestrels', places }]).success)
    expect(typed).toEqual(taken)
    expect(new Set(taken)).toEqual(new Set([true, false]))
  })

  it('an e-mail is at most 254 long and in small letters', async () => {
    const of = (length: number) => `${'x'.repeat(60)}@${'y'.repeat(50)}.${'z'.repeat(length - 116)}.org`
    for (const [email, expected] of [
      [of(170), true],
      ['Another@example.org', false],
      [`${'x'.repeat(243)}@example.org`, false],
    ] as const) {
      expect(await isTaken(copyOf('person', { email }))).toBe(expected)
      const read = personFields.email.safeParse(email)
      expect(read.success && read.data === email).toBe(expected)
    }
  })
})

describe('rules between fields', () => {
  const stageRow = {
    medianDays: 'ready_median_days',
    p90Days: 'ready_p90_days',
    opens: 'gate_opens',
    closes: 'gate_closes',
    minDays: 'gate_min_days',
    lagMedianDays: 'gate_lag_median_days',
    lagP90Days: 'gate_lag_p90_days',
    diedMedianDays: 'died_median_days',
    diedP90Days: 'died_p90_days',
    euthanasedMedianDays: 'euthanased_median_days',
    euthanasedP90Days: 'euthanased_p90_days',
  } as const
  const plain = { medianDays: 2, p90Days: 5 }
  const dated = { opens: '03-20', lagMedianDays: 13, lagP90Days: 35 }
  const STAGES: readonly Partial<Record<keyof typeof stageRow, string | number>>[] = [
    plain,
    {},
    { medianDays: 2 },
    { medianDays: 2, p90Days: 2 },
    { medianDays: 0, p90Days: 2 },
    { medianDays: 2, p90Days: 1500 },
    { medianDays: 2, p90Days: 1500.001 },
    dated,
    { ...dated, lagP90Days: 13 },
    { opens: '03-20' },
    { ...dated, minDays: 0 },
    { ...dated, minDays: -0.001 },
    { ...dated, minDays: 1500.001 },
    { ...plain, closes: '05-31' },
    { ...dated, closes: '05-31' },
    { ...dated, medianDays: 2 },
    { ...plain, lagMedianDays: 2 },
    { ...plain, diedMedianDays: 2 },
    { ...plain, diedMedianDays: 2, diedP90Days: 31 },
    { ...plain, diedMedianDays: 2, diedP90Days: 2 },
    { ...plain, euthanasedMedianDays: 2, euthanasedP90Days: 1 },
    { ...plain, euthanasedMedianDays: 1, euthanasedP90Days: 2 },
  ]
  const SHARES = [
    [0.7, 0.2, 0.1, 0],
    [0.7, 0.2, 0.1, 0.0000005],
    [0.7, 0.2, 0.1, 0.000002],
    [1.1, -0.1, 0, 0],
    [1, 0, 0, 0],
  ] as const

  it.each(STAGES)('a stage with %j', async values => {
    const columns = Object.fromEntries(
      Object.entries(stageRow).map(([key, column]) => [column, values[key as keyof typeof stageRow] ?? null]),
    )
    const typed = Object.fromEntries(Object.entries(values).map(([key, value]) => [key, String(value)]))
    const shares = { onward: '100', died: '0', euthanased: '0', left: '0' }
    const form = { stage: 'quarantine', housing: 'isolation', ...shares, ...typed }
    const taken = await isTaken(copyOf('care_plan_stage', { stage_no: 2, ...columns }))
    expect(stageForm.safeParse(form).success).toBe(taken)
  })

  it.each(SHARES)('shares %d %d %d %d', async (onward, died, euthanased, left) => {
    const columns = { goes_on: onward, died, euthanased, left_care: left }
    const taken = await isTaken(copyOf('care_plan_stage', { stage_no: 2, ...columns }))
    expect(exitShares.safeParse({ onward, died, euthanased, left }).success).toBe(taken)
  })

  it('marks have a length too', async () => {
    const taken: boolean[] = []
    for (const length of [80, 81]) {
      taken.push(await isTaken(copyOf('care_plan_stage', { stage_no: 2, mark_size: 'x'.repeat(length) })))
    }
    const of = (size: string) => ({ size, lengths: null, exitTimes: null, shares: null, minutes: null })
    expect([80, 81].map(length => stageMarks.safeParse(of('x'.repeat(length))).success)).toEqual(taken)
  })
})

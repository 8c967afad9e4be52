import { beforeAll, describe, expect, it } from 'vitest'
import type { z } from 'zod'
import { ROLES } from '#lib/authz/actor.ts'
import { yearArrivalsFields } from '#lib/domain/arrivals.ts'
import { centreFields, NIGHT_DOORS, ROOM_KINDS, SITE_STATES, standingOffer } from '#lib/domain/centre.ts'
import { QUARANTINES } from '#lib/domain/condition.ts'
import { APPLIES_TO, CONDITION_KINDS } from '#lib/domain/condition-form.ts'
import { DRIES_AFTER, enclosureFields } from '#lib/domain/enclosure.ts'
import { PLACE_KINDS, placeFields } from '#lib/domain/gazetteer.ts'
import { CARE_STAGES, HOUSING_TYPES } from '#lib/domain/housing.ts'
import { SIDES } from '#lib/domain/knowledge-form.ts'
import { OUTCOMES } from '#lib/domain/outcome.ts'
import { PRESETS, policyFields, presetWeightFields } from '#lib/domain/policy.ts'
import { weightInput } from '#lib/domain/record.ts'
import { AGES, CLASSES } from '#lib/domain/species.ts'
import { ADULT_ALONE, speciesNumbers } from '#lib/domain/species-form.ts'
import { URGENCIES } from '#lib/domain/urgency.ts'
import { database, undone } from '#tests/support/database.ts'
import { makeWorld, NOON } from '#tests/support/heart.ts'
import { addOneOfEach, copyOf } from '#tests/support/one-of-each.ts'

beforeAll(async () => {
  const client = await database.pool.connect()
  await makeWorld(client)
  await addOneOfEach(client)
  client.release()
})

/** Values on both sides of the lower limit; upper limits of forms are against slips of the finger, not rules. */
const POSITIVE = [-1, -0.001, 0, 0.001, 1]
const NOT_NEGATIVE = [-1, -0.001, 0, 0.001, 1]
const WHOLE = [-1, 0, 1]

type Limit = readonly [
  table: string,
  column: string,
  schema: z.ZodType,
  values: readonly number[],
  rest: Readonly<Record<string, unknown>>,
]

const { shape: offer } = standingOffer
const { shape: weight } = weightInput({ zone: 'UTC', now: NOON })
const SPECIES = { slug: 'x', common_name: 'x' }
const LIMITS: readonly Limit[] = [
  ['centre', 'latitude', centreFields.latitude, [-90.001, -90, 0, 90, 90.001], { name: 'x' }],
  ['centre', 'longitude', centreFields.longitude, [-180.001, -180, 0, 180, 180.001], { name: 'x' }],
  ['enclosure', 'size_rank', enclosureFields.sizeRank, [0, 1, 9, 10], { name: 'x' }],
  ['enclosure', 'width_m', enclosureFields.widthM, POSITIVE, { name: 'x' }],
  ['enclosure', 'length_m', enclosureFields.lengthM, POSITIVE, { name: 'x' }],
  ['enclosure', 'height_m', enclosureFields.heightM, POSITIVE, { name: 'x' }],
  ['enclosure', 'turnaround_min', enclosureFields.turnaroundMin, WHOLE, { name: 'x' }],
  ['species', 'size_rank', speciesNumbers.sizeRank, [0, 1, 9, 10], SPECIES],
  ['species', 'flight_length_min_m', speciesNumbers.flightLengthMinM, [...POSITIVE, 200, 200.1], SPECIES],
  ['species', 'mass_g_low', speciesNumbers.massGLow, POSITIVE, { ...SPECIES, mass_g_high: null }],
  ['species', 'mass_g_high', speciesNumbers.massGHigh, [1_000_000, 1_000_001], SPECIES],
  ['species', 'young_from_month', speciesNumbers.youngFromMonth, [0, 1, 12, 13], SPECIES],
  ['gazetteer_place', 'latitude', placeFields.latitude, [-90.001, -90, 90, 90.001], { name: 'x' }],
  ['gazetteer_place', 'longitude', placeFields.longitude, [-180.001, -180, 180, 180.001], { name: 'x' }],
  ['standing_offer', 'places', offer.places, WHOLE, { centre_id: 2 }],
  ['weight', 'grams', weight.grams, POSITIVE, {}],
  ['year_arrivals', 'animals_per_year', yearArrivalsFields.animalsPerYear, NOT_NEGATIVE, { centre_id: 2 }],
]

/** One row only: changed, not copied. */
const POLICY_LIMITS: readonly (readonly [string, z.ZodType, readonly number[]])[] = [
  ['transfer_place_days', policyFields.transferPlaceDays, NOT_NEGATIVE],
  ['km_per_place_day', policyFields.kmPerPlaceDay, POSITIVE],
  ['refusal_place_days', policyFields.refusalPlaceDays, NOT_NEGATIVE],
  ['redirect_place_days', policyFields.redirectPlaceDays, NOT_NEGATIVE],
  ['keep_advice_place_days', policyFields.keepAdvicePlaceDays, NOT_NEGATIVE],
  ['keep_tomorrow_place_days', policyFields.keepTomorrowPlaceDays, NOT_NEGATIVE],
  ['keep_today_place_days', policyFields.keepTodayPlaceDays, NOT_NEGATIVE],
  ['kappa', presetWeightFields.kappa, [-0.001, 0, 1, 1.001]],
  ['omega', presetWeightFields.omega, [-0.001, 0, 100, 100.001]],
  ['tight_chance', policyFields.tightChance, [0, 0.001, 0.999, 1]],
  ['hold_minutes', policyFields.holdMinutes, WHOLE],
  ['ask_lapse_minutes', policyFields.askLapseMinutes, WHOLE],
  ['late_minutes', policyFields.lateMinutes, [-1, 0, 1, 1440, 1441]],
  ['finder_days', policyFields.finderDays, WHOLE],
]

/** Lists that forms offer, and the check that keeps the column to them. */
const LISTS: readonly (readonly [constraint: string, members: readonly string[]])[] = [
  ['enclosure_housing_known', HOUSING_TYPES],
  ['casualty_stage_housing_known', HOUSING_TYPES],
  ['care_plan_stage_housing_known', HOUSING_TYPES],
  ['casualty_stage_known', CARE_STAGES],
  ['care_plan_stage_known', CARE_STAGES],
  ['keeping_outcome_known', OUTCOMES],
  ['enclosure_dries_after_known', DRIES_AFTER],
  ['centre_night_door_known', NIGHT_DOORS],
  ['room_kind_known', ROOM_KINDS],
  ['movement_stop_state_known', SITE_STATES],
  ['movement_stop_class_known', CLASSES],
  ['policy_preset_known', PRESETS],
  ['gazetteer_place_kind_known', PLACE_KINDS],
  ['company_preys_known', SIDES],
  ['species_adult_alone_known', ADULT_ALONE],
  ['condition_kind_known', CONDITION_KINDS],
  ['condition_applies_to_known', APPLIES_TO],
  ['condition_urgency_known', URGENCIES],
  ['condition_quarantine_known', QUARANTINES],
  ['person_role_known', ROLES],
  ['species_class_known', CLASSES],
  ['casualty_age_known', AGES],
  ['identification_age_known', AGES],
]

/** Whether a check lets a statement through; other refusals are mistakes of the test. */
async function isTaken(statement: string, values: unknown[] = []): Promise<boolean> {
  return undone(async client => {
    try {
      await client.query(statement, values)
      return true
    } catch (thrown) {
      expect((thrown as { code?: string }).code).toBe('23514')
      return false
    }
  })
}

describe('the same limit', () => {
  it.each(LIMITS)('%s.%s in form and table', async (table, column, schema, values, rest) => {
    const taken: boolean[] = []
    for (const value of values) taken.push(await isTaken(copyOf(table, { ...rest, [column]: value })))
    expect(values.map(value => schema.safeParse(value).success)).toEqual(taken)
    expect(new Set(taken)).toEqual(new Set([true, false]))
  })

  it.each(POLICY_LIMITS)('policy.%s in form and table', async (column, schema, values) => {
    const taken: boolean[] = []
    for (const value of values) taken.push(await isTaken(`update policy set ${column} = $1`, [value]))
    expect(values.map(value => schema.safeParse(value).success)).toEqual(taken)
    expect(new Set(taken)).toEqual(new Set([true, false]))
  })

  it.each(LISTS)('the list of %s in form and table', async (constraint, members) => {
    const { rows } = await database.pool.query<{ def: string }>(
      'select pg_get_constraintdef(oid) as def from pg_constraint where conname = $1',
      [constraint],
    )
    const listed = [...(rows[0]?.def ?? '').matchAll(/'([^']+)'::text/g)].map(match => match[1])
    expect(listed.sort()).toEqual([...members].sort())
  })
})

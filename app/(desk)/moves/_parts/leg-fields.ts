import type { FieldSpec } from '#app/(desk)/casualties/_parts/field-spec.ts'
import type { DriverOffered } from '#lib/service/road.ts'
import { driverOption, ROAD, readinessWords } from '#lib/words/road.ts'

export type LegStart = {
  readonly driver?: string
  readonly fromWords?: string
  readonly toWords?: string
  readonly pickUpAt?: string
  readonly dueAt?: string
}

type Offered = { readonly drivers: readonly DriverOffered[]; readonly withFinder: boolean }

/** What is asked about one leg; `before` stands in front of each name. */
export function legFields(before: string, { drivers, withFinder }: Offered, start: LegStart): FieldSpec[] {
  const finder = withFinder ? [{ value: 'finder', text: ROAD.finder }] : []
  return [
    {
      kind: 'select',
      name: `${before}driver`,
      label: ROAD.driver,
      none: ROAD.noDriver,
      start: start.driver ?? '',
      options: [
        ...finder,
        ...drivers.map(driver => ({
          value: String(driver.id),
          text: driverOption(driver),
          group: readinessWords(driver.readiness),
        })),
      ],
    },
    { kind: 'text', name: `${before}fromWords`, label: ROAD.from, start: start.fromWords ?? '' },
    { kind: 'time', name: `${before}pickUpAt`, label: ROAD.pickUpAt, start: start.pickUpAt ?? '' },
    { kind: 'text', name: `${before}toWords`, label: ROAD.goesTo, start: start.toWords ?? '' },
    { kind: 'time', name: `${before}dueAt`, label: ROAD.dueAt, start: start.dueAt ?? '' },
  ]
}

import { driverFields } from '#lib/domain/driver.ts'
import type { DriverDetail } from '#lib/service/setup/driver.ts'
import { DRIVER_FORM } from '#lib/words/setup-form.ts'
import { SETUP_PAGE } from '#lib/words/setup-page.ts'
import { hoursRows } from '../../_parts/shared-fields.ts'
import { type Part, phone, said, text } from '../../_parts/spec.ts'

/** What is asked about a driver. */
export function driverParts(driver: DriverDetail | undefined): Part[] {
  return [
    {
      id: 'who',
      head: SETUP_PAGE.who,
      fields: [
        text('name', driverFields.name, driver?.name),
        phone('phone', driverFields.phone, driver?.phone),
      ],
    },
    {
      id: 'what',
      head: DRIVER_FORM.what,
      fields: [
        text('area', driverFields.area, driver?.area),
        text('vehicle', driverFields.vehicle, driver?.vehicle),
        { kind: 'area', name: 'note', ...said(driverFields.note), start: driver?.note ?? '' },
      ],
    },
    {
      id: 'when',
      head: DRIVER_FORM.when,
      note: DRIVER_FORM.whenNote,
      fields: [
        hoursRows(driver?.hours),
        {
          kind: 'tick',
          name: 'drivesAtNight',
          ...said(driverFields.drivesAtNight),
          start: driver?.drivesAtNight ?? false,
        },
      ],
    },
  ]
}

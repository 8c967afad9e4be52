import type { Metadata } from 'next'
import { may } from '#lib/authz/demand.ts'
import { getDriver } from '#lib/service/setup/driver.ts'
import { load } from '#lib/web/load.ts'
import { pageNumber, pageWord } from '#lib/web/params.ts'
import { paths } from '#lib/web/paths.ts'
import { requireActor } from '#lib/web/session.ts'
import { SETUP } from '#lib/words/setup.ts'
import { switchedWords } from '#lib/words/setup-page.ts'
import { SetupFrame } from '../../_parts/frame.tsx'
import { RecordForm } from '../../_parts/record-form.tsx'
import { SwitchSection } from '../../_parts/switch-section.tsx'
import { driverParts } from '../_parts/driver-parts.ts'
import { changeDriverAction, switchDriverAction } from '../actions.ts'

export const metadata: Metadata = { title: SETUP.drivers }

export default async function DriverPage({ params, searchParams }: PageProps<'/setup/drivers/[id]'>) {
  const [actor, { id }, { kept }] = await Promise.all([requireActor(), params, searchParams])
  const driver = await load(getDriver(actor, pageNumber(id)))
  const mayChange = may(actor, 'setup.drivers')
  return (
    <SetupFrame noun="drivers" sentence={switchedWords(driver.name, driver.isActive)} kept={pageWord(kept)}>
      <RecordForm
        mayChange={mayChange}
        action={changeDriverAction}
        parts={driverParts(driver)}
        id={driver.id}
        version={driver.version}
        here={paths.setupItem('drivers', driver.id)}
      />
      {mayChange && (
        <SwitchSection
          action={switchDriverAction}
          id={driver.id}
          version={driver.version}
          isActive={driver.isActive}
        />
      )}
    </SetupFrame>
  )
}

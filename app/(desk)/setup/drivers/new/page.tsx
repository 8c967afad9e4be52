import type { Metadata } from 'next'
import { mayAddDriver } from '#lib/service/setup/driver.ts'
import { load } from '#lib/web/load.ts'
import { requireActor } from '#lib/web/session.ts'
import { addWords } from '#lib/words/setup-page.ts'
import { SetupFrame } from '../../_parts/frame.tsx'
import { SetupForm } from '../../_parts/setup-form.tsx'
import { driverParts } from '../_parts/driver-parts.ts'
import { addDriverAction } from '../actions.ts'

export const metadata: Metadata = { title: addWords('a driver') }

export default async function NewDriverPage() {
  await load(mayAddDriver(await requireActor()))
  return (
    <SetupFrame noun="drivers" sentence={addWords('a driver')}>
      <SetupForm action={addDriverAction} parts={driverParts(undefined)} submit={addWords('this driver')} />
    </SetupFrame>
  )
}

import type { Metadata } from 'next'
import { newPlaceForm } from '#lib/service/setup/place.ts'
import { load } from '#lib/web/load.ts'
import { requireActor } from '#lib/web/session.ts'
import { PLACE_PAGE } from '#lib/words/setup-place.ts'
import { SetupFrame } from '../../_parts/frame.tsx'
import { ImportForm } from '../_parts/import-form.tsx'
import { importPlacesAction } from '../actions.ts'

export const metadata: Metadata = { title: PLACE_PAGE.importing }

export default async function ImportPlacesPage() {
  await load(newPlaceForm(await requireActor()))
  return (
    <SetupFrame noun="places" sentence={PLACE_PAGE.importing}>
      <ImportForm action={importPlacesAction} />
    </SetupFrame>
  )
}

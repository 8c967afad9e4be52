import type { Metadata } from 'next'
import { may } from '#lib/authz/demand.ts'
import { getPlace } from '#lib/service/setup/place.ts'
import { load } from '#lib/web/load.ts'
import { pageNumber, pageWord } from '#lib/web/params.ts'
import { paths } from '#lib/web/paths.ts'
import { requireActor } from '#lib/web/session.ts'
import { SETUP } from '#lib/words/setup.ts'
import { switchedWords } from '#lib/words/setup-page.ts'
import { SetupFrame } from '../../_parts/frame.tsx'
import { RecordForm } from '../../_parts/record-form.tsx'
import { SwitchSection } from '../../_parts/switch-section.tsx'
import { placeParts } from '../_parts/place-parts.ts'
import { changePlaceAction, switchPlaceAction } from '../actions.ts'

export const metadata: Metadata = { title: SETUP.places }

export default async function PlacePage({ params, searchParams }: PageProps<'/setup/places/[id]'>) {
  const [actor, { id }, { kept }] = await Promise.all([requireActor(), params, searchParams])
  const place = await load(getPlace(actor, pageNumber(id)))
  const mayChange = may(actor, 'setup.places')
  return (
    <SetupFrame noun="places" sentence={switchedWords(place.name, place.isActive)} kept={pageWord(kept)}>
      <RecordForm
        mayChange={mayChange}
        action={changePlaceAction}
        parts={placeParts(place)}
        id={place.id}
        version={place.version}
        here={paths.setupItem('places', place.id)}
      />
      {mayChange && (
        <SwitchSection
          action={switchPlaceAction}
          id={place.id}
          version={place.version}
          isActive={place.isActive}
        />
      )}
    </SetupFrame>
  )
}

import type { Metadata } from 'next'
import { newEnclosureForm } from '#lib/service/setup/enclosure.ts'
import { load } from '#lib/web/load.ts'
import { requireActor } from '#lib/web/session.ts'
import { addWords } from '#lib/words/setup-page.ts'
import { SetupFrame } from '../../_parts/frame.tsx'
import { SetupForm } from '../../_parts/setup-form.tsx'
import { enclosureParts } from '../_parts/enclosure-parts.ts'
import { addEnclosureAction } from '../actions.ts'

export const metadata: Metadata = { title: addWords('an enclosure') }

export default async function NewEnclosurePage() {
  const asked = await load(newEnclosureForm(await requireActor()))
  return (
    <SetupFrame noun="enclosures" sentence={addWords('an enclosure')}>
      <SetupForm
        action={addEnclosureAction}
        parts={enclosureParts(asked)}
        submit={addWords('this enclosure')}
      />
    </SetupFrame>
  )
}

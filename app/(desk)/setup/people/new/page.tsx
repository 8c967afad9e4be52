import type { Metadata } from 'next'
import { newPersonForm } from '#lib/service/setup/person.ts'
import { load } from '#lib/web/load.ts'
import { requireActor } from '#lib/web/session.ts'
import { addWords } from '#lib/words/setup-page.ts'
import { SetupFrame } from '../../_parts/frame.tsx'
import { SetupForm } from '../../_parts/setup-form.tsx'
import { passwordPart, personParts } from '../_parts/person-parts.ts'
import { addPersonAction } from '../actions.ts'

export const metadata: Metadata = { title: addWords('a person') }

export default async function NewPersonPage() {
  const asked = await load(newPersonForm(await requireActor()))
  return (
    <SetupFrame noun="people" sentence={addWords('a person')}>
      <SetupForm
        action={addPersonAction}
        parts={[...personParts(asked), passwordPart(true)]}
        submit={addWords('this person')}
      />
    </SetupFrame>
  )
}

import type { Metadata } from 'next'
import { newArrivalsForm } from '#lib/service/setup/arrivals.ts'
import { load } from '#lib/web/load.ts'
import { requireActor } from '#lib/web/session.ts'
import { addWords } from '#lib/words/setup-page.ts'
import { SetupFrame } from '../../_parts/frame.tsx'
import { SetupForm } from '../../_parts/setup-form.tsx'
import { arrivalsParts, whoseArrivals } from '../_parts/arrivals-parts.ts'
import { addArrivalsAction } from '../actions.ts'

export const metadata: Metadata = { title: addWords('a line of arrivals') }

export default async function NewArrivalsPage() {
  const choices = await load(newArrivalsForm(await requireActor()))
  return (
    <SetupFrame noun="arrivals" sentence={addWords('a line of arrivals')}>
      <SetupForm
        action={addArrivalsAction}
        parts={[whoseArrivals(choices), ...arrivalsParts(undefined)]}
        submit={addWords('this line')}
      />
    </SetupFrame>
  )
}

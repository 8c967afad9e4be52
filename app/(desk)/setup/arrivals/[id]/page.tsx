import type { Metadata } from 'next'
import { may } from '#lib/authz/demand.ts'
import { getArrivals } from '#lib/service/setup/arrivals.ts'
import { load } from '#lib/web/load.ts'
import { pageWord } from '#lib/web/params.ts'
import { paths } from '#lib/web/paths.ts'
import { requireActor } from '#lib/web/session.ts'
import { arrivalsKeyOf } from '#lib/web/setup-form.ts'
import { markWords } from '#lib/words/mark.ts'
import { SETUP } from '#lib/words/setup.ts'
import { arrivalsAnswer } from '#lib/words/setup-form.ts'
import { SetupFrame } from '../../_parts/frame.tsx'
import { RecordForm } from '../../_parts/record-form.tsx'
import { arrivalsParts } from '../_parts/arrivals-parts.ts'
import { changeArrivalsAction } from '../actions.ts'

export const metadata: Metadata = { title: SETUP.arrivals }

export default async function ArrivalsLinePage({ params, searchParams }: PageProps<'/setup/arrivals/[id]'>) {
  const [actor, { id }, { kept }] = await Promise.all([requireActor(), params, searchParams])
  const arrivals = await load((async () => getArrivals(actor, arrivalsKeyOf(decodeURIComponent(id))))())
  return (
    <SetupFrame
      noun="arrivals"
      sentence={arrivalsAnswer(arrivals.groupName, arrivals.centre, arrivals.animalsPerYear)}
      basis={markWords(arrivals.mark)}
      kept={pageWord(kept)}
    >
      <RecordForm
        mayChange={may(actor, 'setup.arrivals')}
        action={changeArrivalsAction}
        parts={arrivalsParts(arrivals)}
        id={id}
        version={arrivals.version}
        here={paths.setupItem('arrivals', id)}
      />
    </SetupFrame>
  )
}

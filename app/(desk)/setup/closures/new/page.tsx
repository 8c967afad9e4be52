import type { Metadata } from 'next'
import { newClosureForm } from '#lib/service/setup/closure.ts'
import { load } from '#lib/web/load.ts'
import { requireActor } from '#lib/web/session.ts'
import { addWords } from '#lib/words/setup-page.ts'
import { SetupFrame } from '../../_parts/frame.tsx'
import { SetupForm } from '../../_parts/setup-form.tsx'
import { closureParts } from '../_parts/closure-parts.ts'
import { planClosureAction } from '../actions.ts'

export const metadata: Metadata = { title: addWords('a closure') }

export default async function NewClosurePage() {
  const enclosures = await load(newClosureForm(await requireActor()))
  return (
    <SetupFrame noun="closures" sentence={addWords('a closure')}>
      <SetupForm
        action={planClosureAction}
        parts={closureParts(enclosures)}
        submit={addWords('this closure')}
      />
    </SetupFrame>
  )
}

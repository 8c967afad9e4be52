import type { Metadata } from 'next'
import { newGroupForm } from '#lib/service/setup/group.ts'
import { load } from '#lib/web/load.ts'
import { requireActor } from '#lib/web/session.ts'
import { addWords } from '#lib/words/setup-page.ts'
import { SetupFrame } from '../../_parts/frame.tsx'
import { SetupForm } from '../../_parts/setup-form.tsx'
import { groupParts } from '../_parts/group-parts.ts'
import { addGroupAction } from '../actions.ts'

export const metadata: Metadata = { title: addWords('a group of species') }

export default async function NewGroupPage() {
  const asked = await load(newGroupForm(await requireActor()))
  return (
    <SetupFrame noun="groups" sentence={addWords('a group of species')}>
      <SetupForm action={addGroupAction} parts={groupParts(asked)} submit={addWords('this group')} />
    </SetupFrame>
  )
}

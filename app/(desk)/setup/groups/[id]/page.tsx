import type { Metadata } from 'next'
import { may } from '#lib/authz/demand.ts'
import { reviewState } from '#lib/domain/review.ts'
import { getGroup } from '#lib/service/setup/group.ts'
import { load } from '#lib/web/load.ts'
import { currentDay } from '#lib/web/network.ts'
import { pageWord } from '#lib/web/params.ts'
import { paths } from '#lib/web/paths.ts'
import { requireActor } from '#lib/web/session.ts'
import { markWords } from '#lib/words/mark.ts'
import { SETUP } from '#lib/words/setup.ts'
import { reviewWords } from '#lib/words/setup-knowledge.ts'
import { switchedWords } from '#lib/words/setup-page.ts'
import { SetupFrame } from '../../_parts/frame.tsx'
import { RecordForm } from '../../_parts/record-form.tsx'
import { ReviewNotice } from '../../_parts/review-notice.tsx'
import { SwitchSection } from '../../_parts/switch-section.tsx'
import { groupParts } from '../_parts/group-parts.ts'
import { changeGroupAction, switchGroupAction } from '../actions.ts'

export const metadata: Metadata = { title: SETUP.groups }

export default async function GroupPage({ params, searchParams }: PageProps<'/setup/groups/[id]'>) {
  const [actor, { today }, { id }, { kept }] = await Promise.all([
    requireActor(),
    currentDay(),
    params,
    searchParams,
  ])
  const asked = await load(getGroup(actor, decodeURIComponent(id)))
  const { group } = asked
  const mayChange = may(actor, 'setup.knowledge')
  const review = reviewWords(reviewState(group.reviewedOn, today), group.reviewedOn)
  return (
    <SetupFrame
      noun="groups"
      sentence={switchedWords(group.name, group.isActive)}
      basis={`${markWords(group.temperamentMark)}. ${review}.`}
      kept={pageWord(kept)}
    >
      <ReviewNotice reviewedOn={group.reviewedOn} today={today} />
      <RecordForm
        mayChange={mayChange}
        action={changeGroupAction}
        parts={groupParts(asked)}
        id={group.slug}
        version={group.version}
        here={paths.setupItem('groups', group.slug)}
      />
      {mayChange && (
        <SwitchSection
          action={switchGroupAction}
          id={group.slug}
          version={group.version}
          isActive={group.isActive}
        />
      )}
    </SetupFrame>
  )
}

import type { Metadata } from 'next'
import { may } from '#lib/authz/demand.ts'
import { reviewState } from '#lib/domain/review.ts'
import { getSpeciesForm } from '#lib/service/setup/species.ts'
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
import { speciesParts } from '../_parts/species-parts.ts'
import { changeSpeciesAction, switchSpeciesAction } from '../actions.ts'

export const metadata: Metadata = { title: SETUP.species }

export default async function SpeciesPage({ params, searchParams }: PageProps<'/setup/species/[id]'>) {
  const [actor, { today }, { id }, { kept }] = await Promise.all([
    requireActor(),
    currentDay(),
    params,
    searchParams,
  ])
  const asked = await load(getSpeciesForm(actor, decodeURIComponent(id)))
  const { species } = asked
  if (species === undefined) return null
  const mayChange = may(actor, 'setup.knowledge')
  const review = reviewWords(reviewState(species.reviewedOn, today), species.reviewedOn)
  return (
    <SetupFrame
      noun="species"
      sentence={switchedWords(species.commonName, species.isActive)}
      basis={`${markWords(species.licenceMark)}. ${review}.`}
      kept={pageWord(kept)}
    >
      <ReviewNotice reviewedOn={species.reviewedOn} today={today} />
      <RecordForm
        mayChange={mayChange}
        action={changeSpeciesAction}
        parts={speciesParts(asked)}
        id={species.slug}
        version={species.version}
        here={paths.setupItem('species', species.slug)}
      />
      {mayChange && (
        <SwitchSection
          action={switchSpeciesAction}
          id={species.slug}
          version={species.version}
          isActive={species.isActive}
        />
      )}
    </SetupFrame>
  )
}

import type { Metadata } from 'next'
import { may } from '#lib/authz/demand.ts'
import { getCondition } from '#lib/service/setup/condition.ts'
import { load } from '#lib/web/load.ts'
import { pageWord } from '#lib/web/params.ts'
import { paths } from '#lib/web/paths.ts'
import { requireActor } from '#lib/web/session.ts'
import { SETUP } from '#lib/words/setup.ts'
import { switchedWords } from '#lib/words/setup-page.ts'
import { SetupFrame } from '../../_parts/frame.tsx'
import { RecordForm } from '../../_parts/record-form.tsx'
import { SwitchSection } from '../../_parts/switch-section.tsx'
import { conditionParts } from '../_parts/condition-parts.ts'
import { changeConditionAction, switchConditionAction } from '../actions.ts'

export const metadata: Metadata = { title: SETUP.conditions }

export default async function ConditionPage({ params, searchParams }: PageProps<'/setup/conditions/[id]'>) {
  const [actor, { id }, { kept }] = await Promise.all([requireActor(), params, searchParams])
  const condition = await load(getCondition(actor, decodeURIComponent(id)))
  const mayChange = may(actor, 'setup.knowledge')
  return (
    <SetupFrame
      noun="conditions"
      sentence={switchedWords(condition.name, condition.isActive)}
      basis={condition.words.join('; ')}
      kept={pageWord(kept)}
    >
      <RecordForm
        mayChange={mayChange}
        action={changeConditionAction}
        parts={conditionParts(condition)}
        id={condition.slug}
        version={condition.version}
        here={paths.setupItem('conditions', condition.slug)}
      />
      {mayChange && (
        <SwitchSection
          action={switchConditionAction}
          id={condition.slug}
          version={condition.version}
          isActive={condition.isActive}
        />
      )}
    </SetupFrame>
  )
}

import type { Metadata } from 'next'
import { may } from '#lib/authz/demand.ts'
import { isAsPreset } from '#lib/domain/policy.ts'
import { getPolicy } from '#lib/service/setup/policy.ts'
import { load } from '#lib/web/load.ts'
import { pageWord } from '#lib/web/params.ts'
import { paths } from '#lib/web/paths.ts'
import { requireActor } from '#lib/web/session.ts'
import { presetWords, SETUP } from '#lib/words/setup.ts'
import { POLICY_FORM } from '#lib/words/setup-form.ts'
import { policyAnswer } from '#lib/words/setup-page.ts'
import { SetupFrame } from '../_parts/frame.tsx'
import { PartsAsFacts } from '../_parts/parts-as-facts.tsx'
import { RecordForm } from '../_parts/record-form.tsx'
import { SetupForm } from '../_parts/setup-form.tsx'
import { policyParts, weightParts } from './_parts/policy-parts.ts'
import { changePolicyAction, changeWeightsAction } from './actions.ts'

export const metadata: Metadata = { title: SETUP.policy }

export default async function PolicyPage({ searchParams }: PageProps<'/setup/policy'>) {
  const [actor, { kept }] = await Promise.all([requireActor(), searchParams])
  const policy = await load(getPolicy(actor))
  return (
    <SetupFrame
      noun="policy"
      sentence={policyAnswer(policy.preset, isAsPreset(policy))}
      basis={presetWords(policy.preset).gives}
      kept={pageWord(kept)}
    >
      <RecordForm
        mayChange={may(actor, 'setup.policy')}
        action={changePolicyAction}
        parts={policyParts(policy)}
        id={1}
        version={policy.version}
        here={paths.setupList('policy')}
      />
      {may(actor, 'setup.weights') ? (
        <SetupForm
          action={changeWeightsAction}
          parts={weightParts(policy)}
          submit={POLICY_FORM.saveWeights}
          hidden={{ version: String(policy.version) }}
          here={paths.setupList('policy')}
          isSecond
        />
      ) : (
        <PartsAsFacts parts={weightParts(policy)} />
      )}
    </SetupFrame>
  )
}

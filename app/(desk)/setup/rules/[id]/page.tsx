import type { Metadata } from 'next'
import { EmptyState } from '#app/_ui/notice.tsx'
import { Section } from '#app/_ui/section.tsx'
import { may } from '#lib/authz/demand.ts'
import { reviewState } from '#lib/domain/review.ts'
import { readHolders } from '#lib/service/licence.ts'
import { getRule } from '#lib/service/setup/rule.ts'
import { load } from '#lib/web/load.ts'
import { currentDay } from '#lib/web/network.ts'
import { pageWord } from '#lib/web/params.ts'
import { paths } from '#lib/web/paths.ts'
import { requireActor } from '#lib/web/session.ts'
import { ruleIdOf, ruleKeyOf } from '#lib/web/setup-form.ts'
import { markWords } from '#lib/words/mark.ts'
import { SETUP } from '#lib/words/setup.ts'
import { RULE_PAGE, reviewWords } from '#lib/words/setup-knowledge.ts'
import { SetupFrame } from '../../_parts/frame.tsx'
import { RecordForm } from '../../_parts/record-form.tsx'
import { ReviewNotice } from '../../_parts/review-notice.tsx'
import { Holders } from '../_parts/holders.tsx'
import { ruleParts } from '../_parts/rule-parts.ts'
import { changeRuleAction } from '../actions.ts'

export const metadata: Metadata = { title: SETUP.rules }

export default async function RulePage({ params, searchParams }: PageProps<'/setup/rules/[id]'>) {
  const [actor, { today }, { id }, { kept }] = await Promise.all([
    requireActor(),
    currentDay(),
    params,
    searchParams,
  ])
  const { rule, species } = await load((async () => getRule(actor, ruleKeyOf(decodeURIComponent(id))))())
  const review = reviewWords(reviewState(rule.reviewedOn, today), rule.reviewedOn)
  return (
    <SetupFrame
      noun="rules"
      sentence={rule.meaning.charAt(0).toUpperCase() + rule.meaning.slice(1)}
      basis={`${markWords(rule.mark)}. ${review}.`}
      kept={pageWord(kept)}
    >
      <ReviewNotice reviewedOn={rule.reviewedOn} today={today} />
      <RecordForm
        mayChange={may(actor, 'setup.knowledge')}
        action={changeRuleAction}
        parts={ruleParts(rule)}
        id={ruleIdOf(rule)}
        version={rule.version}
        here={paths.setupItem('rules', ruleIdOf(rule))}
      />
      {rule.kind === 'licence' && rule.needsHolder && (
        <Holders
          holders={await load(readHolders(actor, rule.key))}
          id={ruleIdOf(rule)}
          mayChange={may(actor, 'setup.knowledge')}
        />
      )}
      <Section id="species" head={RULE_PAGE.species}>
        {species.length === 0 ? (
          <EmptyState sentence={RULE_PAGE.noSpecies} coming={RULE_PAGE.noSpeciesComing} />
        ) : (
          <ul className="lines">
            {species.map(one => (
              <li key={one.slug}>
                <a href={paths.setupItem('species', one.slug)}>{one.commonName}</a>
              </li>
            ))}
          </ul>
        )}
      </Section>
    </SetupFrame>
  )
}

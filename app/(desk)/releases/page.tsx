import type { Metadata } from 'next'
import { EmptyState, Notice } from '#app/_ui/notice.tsx'
import { Answer, Section } from '#app/_ui/section.tsx'
import { readReleases } from '#lib/service/release.ts'
import { readTally } from '#lib/service/tally.ts'
import { currentNow } from '#lib/web/clock.ts'
import { load } from '#lib/web/load.ts'
import { pageWord } from '#lib/web/params.ts'
import { paths } from '#lib/web/paths.ts'
import { requireActor } from '#lib/web/session.ts'
import { fitSentence, leftWithoutPlanWords, RELEASE, releaseDone, waitedFor } from '#lib/words/release.ts'
import { WHO } from '#lib/words/who-is-where.ts'
import { Desk } from '../_parts/desk.tsx'
import { DoneList } from './_parts/done-list.tsx'
import { FitTable } from './_parts/fit-table.tsx'
import { PlanForm } from './_parts/plan-form.tsx'
import { Planned } from './_parts/planned.tsx'
import { TallyTable } from './_parts/tally-table.tsx'
import '../casualties/card.css'
import './releases.css'

export const metadata: Metadata = { title: RELEASE.title }

type Props = { readonly searchParams: Promise<Record<string, string | string[] | undefined>> }

export default async function ReleasesPage({ searchParams }: Props) {
  const [actor, query, now] = await Promise.all([requireActor(), searchParams, currentNow()])
  const [releases, tally] = await Promise.all([load(readReleases(actor, now)), load(readTally(actor, now))])
  const { fit, atGate, today, planned, done, canPlan, leftWithoutPlan, placeDays, placeDaysFor, zone } =
    releases
  const chosen = Number(pageWord(query['animal']))
  const free = fit.filter(one => !one.isPlanned)
  const said = releaseDone(pageWord(query['done']))
  return (
    <Desk current="who-is-where">
      <Answer
        place={
          <>
            {RELEASE.title}
            <br />
            <a href={paths.casualties()}>{WHO.title}</a>
          </>
        }
        sentence={fitSentence(fit.length, placeDays)}
        basis={fit.length === 0 ? undefined : waitedFor(placeDaysFor)}
      />
      {said !== undefined && <Notice kind="done" role="status" sentence={said} />}
      <Section id="fit" head={RELEASE.fit} strong>
        {fit.length === 0 ? (
          <EmptyState sentence={RELEASE.nobodyFit} coming={RELEASE.nobodyFitComing} />
        ) : (
          <FitTable caption={RELEASE.fit} animals={fit} today={today} since={RELEASE.since} />
        )}
      </Section>
      {atGate.length > 0 && (
        <Section id="at-gate" head={RELEASE.atGate} note={RELEASE.atGateNote}>
          <FitTable caption={RELEASE.atGate} animals={atGate} today={today} since={RELEASE.readySince} />
        </Section>
      )}
      {canPlan && free.length > 0 && (
        <Section id="plan" head={RELEASE.plan} note={RELEASE.planNote}>
          <PlanForm
            chosen={free.filter(({ id }) => id === chosen).map(({ id }) => String(id))}
            animals={free.map(({ id, reference, speciesName, centre }) => ({
              value: String(id),
              label: `${reference}, ${speciesName}, ${centre}`,
            }))}
          />
        </Section>
      )}
      <Section id="planned" head={RELEASE.planned}>
        {planned.length === 0 ? (
          <EmptyState sentence={RELEASE.nonePlanned} coming={RELEASE.nonePlannedComing} />
        ) : (
          planned.map(release => (
            <Planned key={release.id} release={release} zone={zone} canRecord={canPlan} />
          ))
        )}
      </Section>
      <Section id="gone" head={RELEASE.done}>
        {done.length === 0 ? (
          <EmptyState sentence={RELEASE.noneDone} coming={RELEASE.noneDoneComing} />
        ) : (
          <DoneList done={done} zone={zone} />
        )}
        {leftWithoutPlan > 0 && <p className="quiet">{leftWithoutPlanWords(leftWithoutPlan)}</p>}
      </Section>
      <Section id="tally" head={RELEASE.tally} note={RELEASE.tallyNote}>
        {tally.lines.length === 0 ? (
          <EmptyState sentence={RELEASE.nothingAdmitted} coming={RELEASE.nothingAdmittedComing} />
        ) : (
          <TallyTable tally={tally} />
        )}
      </Section>
    </Desk>
  )
}

import type { Metadata } from 'next'
import { EmptyState, Notice } from '#app/_ui/notice.tsx'
import { Facts, Section } from '#app/_ui/section.tsx'
import { may } from '#lib/authz/demand.ts'
import { getClosure } from '#lib/service/setup/closure.ts'
import { load } from '#lib/web/load.ts'
import { currentDay } from '#lib/web/network.ts'
import { pageNumber, pageWord, queryNumber } from '#lib/web/params.ts'
import { paths } from '#lib/web/paths.ts'
import { requireActor } from '#lib/web/session.ts'
import { dayAndClock } from '#lib/words/dates.ts'
import { SETUP } from '#lib/words/setup.ts'
import { brokenWords, CLOSURE_PAGE, closureAnswer, insideAnswer } from '#lib/words/setup-form.ts'
import { SetupFrame } from '../../_parts/frame.tsx'
import { OneButton } from '../../_parts/one-button.tsx'
import { liftClosureAction } from '../actions.ts'

export const metadata: Metadata = { title: SETUP.closures }

export default async function ClosurePage({ params, searchParams }: PageProps<'/setup/closures/[id]'>) {
  const [actor, { id }, query, { now, zone }] = await Promise.all([
    requireActor(),
    params,
    searchParams,
    currentDay(),
  ])
  const { closure, state, inside } = await load(getClosure(actor, pageNumber(id), now))
  const broken = queryNumber(query['broken'])
  const end = closure.liftedAt ?? closure.endsAt
  return (
    <SetupFrame
      noun="closures"
      sentence={closureAnswer(`${closure.enclosure}, ${closure.room}`, state)}
      basis={
        state === 'over' || inside.length === 0 ? undefined : insideAnswer(inside.length, state === 'closed')
      }
      kept={pageWord(query['kept'])}
    >
      {broken !== undefined && <Notice kind="mind" sentence={brokenWords(broken)} />}
      <Section id="facts" head={CLOSURE_PAGE.facts} strong>
        <Facts
          facts={[
            { term: CLOSURE_PAGE.where, value: `${closure.enclosure}, ${closure.room}, ${closure.centre}` },
            { term: CLOSURE_PAGE.from, value: dayAndClock(closure.startsAt, zone) },
            {
              term: closure.liftedAt === null ? CLOSURE_PAGE.until : CLOSURE_PAGE.lifted,
              value: end === null ? CLOSURE_PAGE.openEnd : dayAndClock(end, zone),
            },
            { term: CLOSURE_PAGE.reason, value: closure.reason },
          ]}
        />
      </Section>
      {state !== 'over' && (
        <Section id="inside" head={CLOSURE_PAGE.inside}>
          {inside.length === 0 ? (
            <EmptyState sentence={CLOSURE_PAGE.nobody} coming={CLOSURE_PAGE.nobodyComing} />
          ) : (
            <ul className="lines">
              {inside.map(reference => (
                <li key={reference}>
                  <a href={paths.casualty(reference)}>{reference}</a>
                </li>
              ))}
            </ul>
          )}
        </Section>
      )}
      {state !== 'over' && may(actor, 'setup.closures') && (
        <Section id="lift" head={CLOSURE_PAGE.lifting} note={CLOSURE_PAGE.liftNote}>
          <OneButton
            action={liftClosureAction}
            text={CLOSURE_PAGE.lift}
            fields={{ id: String(closure.id) }}
          />
        </Section>
      )}
    </SetupFrame>
  )
}

import type { Metadata } from 'next'
import { EmptyState } from '#app/_ui/notice.tsx'
import { Answer, Section } from '#app/_ui/section.tsx'
import { type RecordsShown, readLearning, readRecords } from '#lib/service/records.ts'
import { load } from '#lib/web/load.ts'
import { currentDay } from '#lib/web/network.ts'
import { pageWord } from '#lib/web/params.ts'
import { paths } from '#lib/web/paths.ts'
import { requireActor } from '#lib/web/session.ts'
import { JUDGED } from '#lib/words/judged.ts'
import {
  ARRIVALS,
  allConditionsWords,
  allGroupsWords,
  RECORDS,
  recordsSentence,
  runWords,
  staysWords,
} from '#lib/words/records.ts'
import { Desk } from '../_parts/desk.tsx'
import { ArrivalTable } from './_parts/arrival-table.tsx'
import { Fold } from './_parts/fold.tsx'
import { Learning } from './_parts/learning.tsx'
import { StageTable } from './_parts/stage-table.tsx'
import './records.css'

export const metadata: Metadata = { title: RECORDS.title }

type Props = { readonly searchParams: Promise<Record<string, string | string[] | undefined>> }

/** What was learned changes with a learning alone; how far one is, whoever waits looks again. */
const FOLLOWS = ['learning_run']

/** Stands in the address for the stages without records of their own. */
const OTHERS = 'others'

export default async function RecordsPage({ searchParams }: Props) {
  const [actor, query, { now, zone }] = await Promise.all([requireActor(), searchParams, currentDay()])
  const [shown, running] = await Promise.all([load(readRecords(actor)), load(readLearning(actor, now))])
  const learning = <Learning learning={running} zone={zone} />
  const wanted = pageWord(query['condition'])
  if (shown === undefined) {
    return (
      <Desk current="weeks-ahead" follows={FOLLOWS}>
        <Answer reference={RECORDS.title} sentence={RECORDS.none}>
          <CameTrueLink />
        </Answer>
        {learning}
        <EmptyState sentence={RECORDS.none} coming={RECORDS.noneComing} />
      </Desk>
    )
  }
  const { run, farthest, own, others, arrivals, earlierAsOf } = shown
  const chosen =
    wanted === OTHERS ? { condition: RECORDS.other, stages: others } : own.find(({ slug }) => slug === wanted)
  const owned = own.reduce((sum, { stages }) => sum + stages.length, 0)
  return (
    <Desk current="weeks-ahead" follows={FOLLOWS}>
      <Answer
        reference={RECORDS.title}
        sentence={recordsSentence(owned, owned + others.length)}
        basis={`${runWords(run)} ${RECORDS.ownNote}`}
      >
        <CameTrueLink />
      </Answer>
      {learning}
      {chosen !== undefined && (
        <Section id="condition" head={chosen.condition} note={staysWords(chosen.stages)} strong>
          <StageTable
            caption={chosen.condition}
            stages={chosen.stages}
            earlierAsOf={earlierAsOf}
            isMixed={wanted === OTHERS}
          />
        </Section>
      )}
      <Section id="farthest" head={RECORDS.farthest} note={RECORDS.farthestNote} strong>
        {farthest.length === 0 ? (
          <EmptyState sentence={RECORDS.noneFar} coming={RECORDS.noneFarComing} />
        ) : (
          <StageTable caption={RECORDS.farthest} stages={farthest} earlierAsOf={earlierAsOf} isMixed />
        )}
      </Section>
      <Conditions shown={shown} wanted={wanted} />
      <Section id="arrivals" head={ARRIVALS.head} note={ARRIVALS.note} strong>
        {arrivals.length === 0 ? (
          <EmptyState sentence={ARRIVALS.none} coming={ARRIVALS.noneComing} />
        ) : (
          <Fold label={allGroupsWords(arrivals.length)}>
            <ArrivalTable arrivals={arrivals} />
          </Fold>
        )}
      </Section>
    </Desk>
  )
}

function CameTrueLink() {
  return (
    <a className="records-back" href={paths.cameTrue()}>
      {JUDGED.title}
    </a>
  )
}

/** Every condition with records of its stages, the most stays first; at last the stages without. */
function Conditions({
  shown,
  wanted,
}: {
  readonly shown: RecordsShown
  readonly wanted: string | undefined
}) {
  const rows = shown.own.map(({ slug, condition, stages }) => ({
    slug,
    text: condition,
    said: staysWords(stages),
  }))
  const last = {
    slug: OTHERS,
    text: RECORDS.other,
    said: `${staysWords(shown.others)}. ${RECORDS.otherNote}`,
  }
  return (
    <Section id="conditions" head={RECORDS.byCondition} note={RECORDS.byConditionNote} strong>
      <Fold label={allConditionsWords(shown.own.length)}>
        <ul className="records-list">
          {[...rows, ...(shown.others.length > 0 ? [last] : [])].map(({ slug, text, said }) => (
            <li key={slug}>
              <a
                href={paths.records({ condition: slug })}
                aria-current={slug === wanted ? 'page' : undefined}
              >
                {text}
              </a>
              {` ${said}`}
            </li>
          ))}
        </ul>
      </Fold>
    </Section>
  )
}

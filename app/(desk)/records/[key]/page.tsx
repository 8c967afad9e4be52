import type { Metadata } from 'next'
import { Answer, Section } from '#app/_ui/section.tsx'
import type { RecordShown } from '#lib/service/records.ts'
import { readRecord } from '#lib/service/records.ts'
import { load } from '#lib/web/load.ts'
import { paths } from '#lib/web/paths.ts'
import { requireActor } from '#lib/web/session.ts'
import { endsOfStage, exitTimesOfStage, lengthOfStage } from '#lib/words/casualty-plan.ts'
import { markWords } from '#lib/words/mark.ts'
import {
  changedSentence,
  oddsWords,
  RECORD,
  RECORDS,
  recordSentence,
  runWords,
  timesSpan,
} from '#lib/words/records.ts'
import { Desk } from '../../_parts/desk.tsx'
import { StageCurve } from '../_parts/curve.tsx'
import { planWords, stageName } from '../_parts/names.ts'
import '../records.css'

export const metadata: Metadata = { title: RECORDS.title }

type Props = { readonly params: Promise<{ readonly key: string }> }

export default async function RecordPage({ params }: Props) {
  const [actor, { key }] = await Promise.all([requireActor(), params])
  const shown = await load(readRecord(actor, decodeURIComponent(key)))
  const { said, run, curve, before, earlierAsOf } = shown
  return (
    <Desk current="weeks-ahead">
      <Answer
        reference={stageName(said)}
        place={planWords(said, true)}
        sentence={recordSentence(said)}
        basis={`${RECORDS.within}: ${timesSpan(said.stretch)}. ${RECORD.deaths}: ${oddsWords(said.earlyOdds)}. ${runWords(run)}`}
      >
        <a className="records-back" href={paths.records()}>
          {RECORDS.back}
        </a>
      </Answer>
      <Section id="curve" head={RECORD.curve} note={RECORD.curveNote} strong>
        <StageCurve curve={curve} before={before} />
      </Section>
      <Figures shown={shown} />
      <Section id="changed" head={RECORD.changed}>
        <p className="records-said">{changedSentence(said.stretch, said.earlier, earlierAsOf)}</p>
      </Section>
    </Desk>
  )
}

/** What the plan says of the stage, each figure with its source. */
function Figures({ shown: { said, marks } }: { readonly shown: RecordShown }) {
  const { estimate } = said
  const figures = [
    { term: RECORD.length, words: lengthOfStage(estimate), mark: marks?.lengths },
    { term: RECORD.ends, words: endsOfStage(estimate), mark: marks?.shares },
    { term: RECORD.when, words: exitTimesOfStage(estimate), mark: marks?.exitTimes },
  ]
  return (
    <Section id="figures" head={RECORD.figures} note={marks === null ? RECORD.noSource : RECORD.figuresNote}>
      <dl className="records-figures">
        {figures.map(({ term, words, mark }) => (
          <div key={term}>
            <dt>{term}</dt>
            <dd>
              {words}
              {mark !== undefined && ` (${markWords(mark)})`}
            </dd>
          </div>
        ))}
      </dl>
    </Section>
  )
}

import type { Metadata } from 'next'
import { Notice } from '#app/_ui/notice.tsx'
import { Answer, Section } from '#app/_ui/section.tsx'
import { AsTable } from '#app/_ui/table.tsx'
import { may } from '#lib/authz/demand.ts'
import { type JudgedShown, type Missing, readJudged } from '#lib/service/judged.ts'
import { load } from '#lib/web/load.ts'
import { currentDay } from '#lib/web/network.ts'
import { pageWord } from '#lib/web/params.ts'
import { paths } from '#lib/web/paths.ts'
import { requireActor } from '#lib/web/session.ts'
import { doubtTooShortSentence, heldHead, JUDGED, tooShortSentence, UNLEARNED } from '#lib/words/judged.ts'
import { JUDGED_CONSTRAINTS, JUDGED_RULES } from '#lib/words/judged-refusal.ts'
import type { Said } from '#lib/words/said.ts'
import { Desk } from '../../_parts/desk.tsx'
import { HorizonTable } from '../_parts/horizon-table.tsx'
import { JudgedFacts } from '../_parts/judged-facts.tsx'
import { Judging } from '../_parts/judging.tsx'
import { ScalePictures } from '../_parts/scale-pictures.tsx'
import { verdictWords } from '../_parts/verdict-words.ts'
import '../records.css'

export const metadata: Metadata = { title: JUDGED.title }

/** Beside what the frame follows: a judging begins, ends, or uses another learning. */
const FOLLOWS = ['backtest', 'learning_run']

type Props = { readonly searchParams: Promise<Record<string, string | string[] | undefined>> }

/** What a button came too late for. */
const SAID: Readonly<Record<string, Said | undefined>> = {
  already: JUDGED_CONSTRAINTS['backtest_one_open'],
  over: JUDGED_RULES['backtest-not-open'],
}

export default async function CameTruePage({ searchParams }: Props) {
  const [actor, query, { zone }] = await Promise.all([requireActor(), searchParams, currentDay()])
  const said = SAID[pageWord(query['said']) ?? '']
  const { judged, isLearned } = await load(readJudged(actor))
  return (
    <Desk current="weeks-ahead" follows={FOLLOWS}>
      <Answer
        reference={JUDGED.title}
        sentence={headOf(judged)}
        basis={judged?.first === undefined ? undefined : verdictWords(judged.first)}
      >
        <a className="records-back" href={paths.records()}>
          {JUDGED.back}
        </a>
      </Answer>
      {said !== undefined && (
        <Notice kind="changed-since" role="status" sentence={said.say} kept={said.next} />
      )}
      <Judging judged={judged} mayJudge={may(actor, 'forecast.judge')} zone={zone} />
      {!isLearned && <p className="records-said records-apart">{UNLEARNED}</p>}
      {judged !== undefined && judged.horizons.length > 0 && (
        <Section id="figures" head={JUDGED.figures} note={JUDGED.figuresNote} strong>
          <HorizonTable rows={judged.horizons} />
          <p className="fan-key">
            {JUDGED.offMeans} {JUDGED.thanMeans} {lacksRange(judged) && JUDGED.noRange}
          </p>
          <AsTable label={JUDGED.more}>
            <ScalePictures rows={judged.horizons} />
            <JudgedFacts judged={judged} zone={zone} />
          </AsTable>
        </Section>
      )}
      {judged !== undefined && judged.missing.length > 0 && (
        <Section id="missing" head={JUDGED.missing}>
          <ul className="lines records-said">
            {judged.missing.map(one => (
              <li key={one.horizon}>{missingWords(one, judged)}</li>
            ))}
          </ul>
        </Section>
      )}
    </Desk>
  )
}

function headOf(judged: JudgedShown | undefined): string {
  if (judged === undefined) return JUDGED.none
  if (judged.first !== undefined) {
    const { horizon, held, heldRange } = judged.first
    return heldHead(horizon, held, heldRange)
  }
  if (judged.state === 'open') return JUDGED.running
  return judged.outOf === 0 ? JUDGED.tooFew : JUDGED.none
}

function missingWords({ horizon, hasDays, needsDays }: Missing, { horizons }: JudgedShown): string {
  const isJudged = horizons.some(one => one.horizon === horizon)
  const say = isJudged ? doubtTooShortSentence : tooShortSentence
  return say(horizon, hasDays, needsDays)
}

const lacksRange = ({ horizons }: JudgedShown) =>
  horizons.some(
    ({ heldRange, guesses }) =>
      heldRange === null || guesses.some(one => one.kind === 'judged' && one.range === null),
  )

import { Notice } from '#app/_ui/notice.tsx'
import { HORIZON_DAYS } from '#lib/service/network.ts'
import type { Answered } from '#lib/service/option.ts'
import { missingWords } from '#lib/words/call.ts'
import { DESK } from '#lib/words/desk.ts'
import { answerTitle, type CallSituation } from '#lib/words/option.ts'
import { Options } from './options.tsx'

type Props = {
  readonly answered: Answered
  readonly situation: CallSituation
  readonly mayTake: boolean
}

/** The options, or what is still needed for any; said once to readers as one sentence. */
export function Ranked({ answered, situation, mayTake }: Props) {
  const { ranked, missing } = answered
  return (
    <>
      <p className="vh" role="status">
        {ranked === null ? missingWords(missing) : answerTitle(ranked.options[0], situation.today)}
      </p>
      {ranked === null ? (
        <div id="options" tabIndex={-1}>
          <Notice kind="not-enough-known" sentence={missingWords(missing)} kept={DESK.kept} />
        </div>
      ) : (
        <Options ranked={ranked} situation={situation} horizonDays={HORIZON_DAYS} mayTake={mayTake} />
      )}
    </>
  )
}

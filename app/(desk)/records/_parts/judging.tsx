import { ButtonLink } from '#app/_ui/button.tsx'
import { EmptyState, Notice } from '#app/_ui/notice.tsx'
import { OneButton } from '#app/(desk)/calls/_parts/one-button.tsx'
import type { JudgedShown } from '#lib/service/judged.ts'
import { paths } from '#lib/web/paths.ts'
import { cancelledWords, JUDGED, judgingWords } from '#lib/words/judged.ts'
import { judgingAsked, judgingCancelled } from '../actions.ts'

type Props = {
  readonly judged: JudgedShown | undefined
  readonly mayJudge: boolean
  readonly zone: string
}

/** How far the judging is, and what may be done about it. */
export function Judging({ judged, mayJudge, zone }: Props) {
  const again = (text: string) => mayJudge && <OneButton action={judgingAsked} text={text} />
  if (judged === undefined) {
    return <EmptyState sentence={JUDGED.none} coming={JUDGED.noneComing} todo={again(JUDGED.judge)} />
  }
  const { state, judgedDays, outOf, begunAt, endedAt } = judged
  if (state === 'open') {
    return (
      <Notice
        kind="working"
        sentence={judgingWords(judgedDays, outOf, begunAt, zone)}
        kept={judgedDays === 0 ? JUDGED.notYet : JUDGED.soFar}
        todo={
          <>
            <ButtonLink href={paths.cameTrue()}>{JUDGED.look}</ButtonLink>
            {mayJudge && <OneButton action={judgingCancelled} weight="plain" text={JUDGED.cancel} />}
          </>
        }
      />
    )
  }
  if (state === 'cancelled' && endedAt !== null) {
    return (
      <Notice
        kind="mind"
        sentence={cancelledWords(judgedDays, outOf, endedAt, zone)}
        kept={judgedDays === 0 ? undefined : JUDGED.onlyThose}
        todo={again(JUDGED.again)}
      />
    )
  }
  return mayJudge && <div className="records-apart">{again(JUDGED.again)}</div>
}

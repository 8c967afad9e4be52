import type { ReactNode } from 'react'
import { Notice } from '#app/_ui/notice.tsx'
import type { StoppedJourney } from '#lib/service/road.ts'
import { dayAndClock } from '#lib/words/dates.ts'
import { STOPPED, stoppedSentence, stoppedSince, stoppedTodo } from '#lib/words/stopped-road.ts'

type Props = {
  readonly stop: StoppedJourney
  readonly zone: string
  /** Where it stands on other pages: the way to the journey. */
  readonly todo?: ReactNode
}

/** A drive that leads into or out of a place where nothing may move: whom to ring, and who decides. */
export function StoppedNotice({ stop, zone, todo }: Props) {
  return (
    <Notice
      kind="first"
      sentence={stoppedSentence(stop)}
      kept={
        <>
          {stoppedTodo({ ...stop, by: stop.driver })}.
          <span className="sub">{stoppedSince(stop.reason, dayAndClock(stop.startsAt, zone))}</span>
          <span className="sub">{STOPPED.kept}</span>
        </>
      }
      todo={todo}
    />
  )
}

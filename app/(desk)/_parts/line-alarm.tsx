import { ButtonLink } from '#app/_ui/button.tsx'
import { Notice } from '#app/_ui/notice.tsx'
import type { LineState } from '#lib/service/line.ts'
import { paths } from '#lib/web/paths.ts'
import { nearTime } from '#lib/words/due.ts'
import { LINE, lineSentence, onTheLineWords, unheldTodo } from '#lib/words/line.ts'

type Props = {
  readonly line: LineState
  readonly mayHold: boolean
  readonly now: Date
  readonly zone: string
}

/** Stands above every page while nobody holds the line. */
export function LineAlarm({ line: { turn, unheld, holders }, mayHold, now, zone }: Props) {
  if (unheld === undefined) return null
  const until = turn === undefined ? '' : nearTime(turn.untilAt, now, zone)
  return (
    <Notice
      id="line-unheld"
      kind="first"
      sentence={lineSentence({ unheld, holder: turn?.holder, isMine: false, until })}
      kept={unheldTodo(mayHold ? 'may-hold' : 'reads', holders)}
      todo={mayHold ? <ButtonLink href={paths.line()}>{LINE.takeUp}</ButtonLink> : undefined}
    />
  )
}

/** Who holds it, in the head of the page. */
export function OnTheLine({ line, personId }: { readonly line: LineState; readonly personId: number }) {
  const { turn, unheld } = line
  const holder = unheld === undefined ? turn?.holder : undefined
  return <a href={paths.line()}>{onTheLineWords(holder, turn?.holderId === personId)}</a>
}

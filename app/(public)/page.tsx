import type { Metadata } from 'next'
import { redirect } from 'next/navigation'
import { Actions, ButtonLink } from '#app/_ui/button.tsx'
import { Notice } from '#app/_ui/notice.tsx'
import { Answer } from '#app/_ui/section.tsx'
import { Shell } from '#app/_ui/shell.tsx'
import { OneButton } from '#app/(desk)/calls/_parts/one-button.tsx'
import { may } from '#lib/authz/demand.ts'
import { getFront } from '#lib/service/front.ts'
import { isDemo } from '#lib/web/demo.ts'
import { homeOf } from '#lib/web/home.ts'
import { currentLine } from '#lib/web/line.ts'
import { currentDay, currentNetwork } from '#lib/web/network.ts'
import { paths } from '#lib/web/paths.ts'
import { currentActor } from '#lib/web/session.ts'
import { clockTime, weekdayDate } from '#lib/words/dates.ts'
import { FRONT, tonightWords } from '#lib/words/front.ts'
import { LINE, unheldTodo } from '#lib/words/line.ts'
import { answerWaitingCall } from './actions.ts'

export const metadata: Metadata = { title: FRONT.title }

export default async function FrontPage() {
  const actor = await currentActor()
  const isOpen = isDemo()
  if (!isOpen && actor === undefined) redirect(paths.signIn())
  if (!isOpen && actor !== undefined && homeOf(actor) !== paths.front()) redirect(homeOf(actor))
  const [front, { now, today, zone }, network, line] = await Promise.all([
    getFront(),
    currentDay(),
    currentNetwork(),
    currentLine(),
  ])
  const mayHold = actor !== undefined && may(actor, 'line.hold')
  return (
    <Shell nav={[]} home={paths.front()} day={`${weekdayDate(today)}, ${clockTime(now, zone)}`} demo={isOpen}>
      {line.unheld !== undefined && (
        <Notice
          id="line-unheld"
          kind="first"
          sentence={LINE.nobody}
          kept={unheldTodo(mayHold ? 'may-hold' : 'visitor', [])}
          todo={mayHold ? <ButtonLink href={paths.line()}>{LINE.takeUp}</ButtonLink> : undefined}
        />
      )}
      <Answer
        reference={network.name}
        sentence={tonightWords(front.centres, front.inCare)}
        basis={
          <>
            {isOpen && FRONT.invented}{' '}
            {isOpen && (front.waitingCallId === null ? FRONT.noCall : FRONT.notice)}
          </>
        }
      >
        {isOpen && (
          <Actions>
            <OneButton
              action={answerWaitingCall}
              weight="filled"
              text={front.waitingCallId === null ? FRONT.toCalls : FRONT.answer}
            />
            {actor === undefined ? (
              <ButtonLink href={paths.signIn()}>{FRONT.signIn}</ButtonLink>
            ) : (
              <ButtonLink href={homeOf(actor)}>{actor.name}</ButtonLink>
            )}
          </Actions>
        )}
      </Answer>
    </Shell>
  )
}

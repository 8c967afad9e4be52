import type { Metadata } from 'next'
import { Actions } from '#app/_ui/button.tsx'
import { Answer } from '#app/_ui/section.tsx'
import { may } from '#lib/authz/demand.ts'
import { readAskDesk } from '#lib/service/ask.ts'
import { readCallDesk } from '#lib/service/call.ts'
import { load } from '#lib/web/load.ts'
import { currentDay } from '#lib/web/network.ts'
import { requireActor } from '#lib/web/session.ts'
import { DESK, waitingSentence } from '#lib/words/desk.ts'
import { Desk } from '../_parts/desk.tsx'
import { Asks } from './_parts/asks.tsx'
import { AnsweredCalls, PromisedCallBacks, WaitingCalls } from './_parts/call-lists.tsx'
import { OneButton } from './_parts/one-button.tsx'
import { takeCall } from './actions.ts'
import './calls.css'

export const metadata: Metadata = { title: DESK.title }

export default async function CallsPage() {
  const actor = await requireActor()
  const [{ open, closed, callBacks }, { now, zone }] = await Promise.all([
    load(readCallDesk(actor)),
    currentDay(),
  ])
  const asks = await load(readAskDesk(actor, now))
  const mayTake = may(actor, 'call.take')
  return (
    <Desk current="calls">
      <Answer sentence={waitingSentence(open.length)} reference={DESK.title}>
        {mayTake && (
          <Actions>
            <OneButton action={takeCall} weight="filled" text={DESK.newCall} />
          </Actions>
        )}
      </Answer>
      <WaitingCalls calls={open} now={now} zone={zone} />
      <PromisedCallBacks callBacks={callBacks} now={now} zone={zone} mayTake={mayTake} />
      <Asks asks={asks} now={now} zone={zone} />
      <AnsweredCalls calls={closed} zone={zone} />
    </Desk>
  )
}

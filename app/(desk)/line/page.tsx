import type { Metadata } from 'next'
import { Answer } from '#app/_ui/section.tsx'
import { readLine } from '#lib/service/line.ts'
import { load } from '#lib/web/load.ts'
import { currentDay } from '#lib/web/network.ts'
import { requireActor } from '#lib/web/session.ts'
import { dayAndClock } from '#lib/words/dates.ts'
import { nearTime } from '#lib/words/due.ts'
import { LINE, lineSentence, passCount, printedWords, unheldTodo } from '#lib/words/line.ts'
import { Desk } from '../_parts/desk.tsx'
import '../casualties/card.css'
import '../due/due.css'
import { LineActs } from './_parts/line-acts.tsx'
import { Passing, Staying, Turns } from './_parts/line-passing.tsx'
import './line.css'

export const metadata: Metadata = { title: LINE.title }

export default async function LinePage() {
  const [actor, { now, zone }] = await Promise.all([requireActor(), currentDay()])
  const page = await load(readLine(actor, now))
  const { turn, unheld, offer, isMine, mayHold } = page
  const until = turn === undefined ? '' : nearTime(turn.untilAt, now, zone)
  return (
    <Desk isAlarmShown={false} follows={['call', 'casualty', 'claim', 'ask', 'referral']}>
      <Answer
        reference={LINE.title}
        sentence={lineSentence({ unheld, holder: turn?.holder, isMine, until })}
        basis={
          <>
            {unheld !== undefined && `${unheldTodo(mayHold ? 'may-hold' : 'reads', page.holders)} `}
            {passCount(page.passing.length)}
          </>
        }
      >
        <div className="noprint">
          <LineActs page={page} now={now} zone={zone} />
        </div>
        <div className="line-paper">
          <p>{printedWords(turn?.holder ?? '', dayAndClock(now, zone), offer?.to ?? null)}</p>
          {offer !== undefined && offer.words !== '' && <p className="line-words">{offer.words}</p>}
        </div>
      </Answer>
      <Passing items={page.passing} holder={turn?.holder ?? ''} now={now} zone={zone} />
      <Staying items={page.staying} now={now} zone={zone} />
      <div className="noprint">
        <Turns turns={page.turns} zone={zone} />
      </div>
      <p className="line-paper line-signed">{LINE.signed}</p>
    </Desk>
  )
}

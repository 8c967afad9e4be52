import { Actions } from '#app/_ui/button.tsx'
import { Notice } from '#app/_ui/notice.tsx'
import { OneButton } from '#app/(desk)/calls/_parts/one-button.tsx'
import { Act } from '#app/(desk)/casualties/_parts/act.tsx'
import type { FieldSpec } from '#app/(desk)/casualties/_parts/field-spec.ts'
import { listTurnEnds, TURN_HOURS_USUAL } from '#lib/domain/line.ts'
import type { LinePage } from '#lib/service/line.ts'
import { clockTime, dayAndClock } from '#lib/words/dates.ts'
import { LINE, offeredWords, offeredYouWords } from '#lib/words/line.ts'
import { accepted, offered, stayed, takenBack, takenOver } from '../actions.ts'

type Props = { readonly page: LinePage; readonly now: Date; readonly zone: string }

/** What this person can do about the line now: nothing else is offered. */
export function LineActs({ page, now, zone }: Props) {
  if (!page.mayHold) return null
  const turnId = page.turn === undefined ? '' : String(page.turn.id)
  const until = untilField(now, zone)
  if (page.isMine) return <HolderActs page={page} now={now} zone={zone} />
  if (page.turn === undefined) {
    return (
      <Act
        id="take-up"
        action={accepted}
        title={LINE.takeUp}
        submit={LINE.takeUp}
        fields={[until]}
        hidden={{ turnId }}
        notes={[LINE.takeUpNote]}
        isFirst
        isOpen
      />
    )
  }
  return (
    <div className="acts">
      {page.isOffered && (
        <>
          <OfferedYou page={page} zone={zone} />
          <Act
            id="accept"
            action={accepted}
            title={LINE.accept}
            submit={LINE.accept}
            fields={[until]}
            hidden={{ turnId }}
            notes={[LINE.acceptNote]}
            isFirst
            isOpen
          />
        </>
      )}
      <Act
        id="take-over"
        action={takenOver}
        title={LINE.takeOver}
        submit={LINE.takeOver}
        fields={[{ kind: 'text', name: 'reason', label: LINE.reason, hint: LINE.reasonHint }, until]}
        hidden={{ turnId }}
        notes={[LINE.takeOverNote]}
        isFirst={!page.isOffered && page.unheld !== undefined}
        isOpen={!page.isOffered && page.unheld !== undefined}
      />
    </div>
  )
}

function HolderActs({ page, now, zone }: Props) {
  const { turn, offer, holders } = page
  const others = holders.filter(({ id }) => id !== turn?.holderId)
  return (
    <>
      {offer !== undefined && (
        <Notice
          kind="working"
          sentence={offeredWords(offer.to, clockTime(offer.offeredAt, zone))}
          kept={offer.words === '' ? undefined : <p className="line-words">{offer.words}</p>}
          todo={
            <Actions>
              <OneButton action={takenBack} text={LINE.withdraw} />
            </Actions>
          }
        />
      )}
      <div className="acts">
        {offer === undefined && (
          <Act
            id="offer"
            action={offered}
            title={LINE.offer}
            submit={LINE.offerButton}
            hidden={{}}
            notes={[LINE.offerNote]}
            isFirst
            isOpen
            fields={[
              {
                kind: 'select',
                name: 'to',
                label: LINE.to,
                none: LINE.anybody,
                options: others.map(({ id, name }) => ({ value: String(id), text: name })),
              },
              { kind: 'words', name: 'words', label: LINE.words, hint: LINE.wordsHint },
            ]}
          />
        )}
        <Act
          id="stay"
          action={stayed}
          title={LINE.stay}
          submit={LINE.stayButton}
          fields={[untilField(now, zone)]}
          hidden={{}}
        />
      </div>
    </>
  )
}

function OfferedYou({ page: { turn, offer }, zone }: Omit<Props, 'now'>) {
  if (turn === undefined || offer === undefined) return null
  return (
    <Notice
      inside
      kind="first"
      sentence={offeredYouWords(turn.holder, offer.toId !== null, dayAndClock(offer.offeredAt, zone))}
      kept={offer.words === '' ? undefined : <p className="line-words">{offer.words}</p>}
    />
  )
}

function untilField(now: Date, zone: string): FieldSpec {
  const ends = listTurnEnds(now)
  return {
    kind: 'select',
    name: 'untilAt',
    label: LINE.until,
    hint: LINE.untilHint,
    start: ends[TURN_HOURS_USUAL - 1]?.toISOString(),
    options: ends.map(end => ({ value: end.toISOString(), text: dayAndClock(end, zone) })),
  }
}

import { EmptyState } from '#app/_ui/notice.tsx'
import { Section } from '#app/_ui/section.tsx'
import { DataTable } from '#app/_ui/table.tsx'
import type { CallDesk } from '#lib/service/call.ts'
import { paths } from '#lib/web/paths.ts'
import { clockTime, dayAndClock } from '#lib/words/dates.ts'
import { callLine, DESK, dueWords, knownLine, sameAsWords, sinceWords, stateLine } from '#lib/words/desk.ts'
import { calledBack } from '../actions.ts'
import { RangBack } from './rang-back.tsx'

const MS_PER_MINUTE = 60_000

type Clock = { readonly now: Date; readonly zone: string }
type Calls = CallDesk['open']
type CallBacks = CallDesk['callBacks']

/** Calls that wait, the oldest first. */
export function WaitingCalls({ calls, now, zone }: { readonly calls: Calls } & Clock) {
  return (
    <Section id="waiting" head={DESK.open} note={DESK.openNote} strong>
      {calls.length === 0 ? (
        <EmptyState sentence={DESK.none} coming={DESK.noneComing} />
      ) : (
        <DataTable
          caption={DESK.open}
          hideCaption
          rows={calls}
          keyOf={call => String(call.id)}
          columns={[
            { key: 'line', head: 'Call', isRowHead: true, cell: call => <Known call={call} calls={calls} /> },
            {
              key: 'since',
              head: 'Since',
              cell: call =>
                `${dayAndClock(call.openedAt, zone)}, ${sinceWords((now.getTime() - call.openedAt.getTime()) / MS_PER_MINUTE)}`,
            },
            { key: 'by', head: 'Taken by', cell: call => call.openedBy ?? '' },
            {
              key: 'state',
              head: 'State',
              cell: call =>
                stateLine({
                  by: call.parkedBy,
                  at: call.parkedAt === null ? null : clockTime(call.parkedAt, zone),
                }),
            },
          ]}
        />
      )}
    </Section>
  )
}

/** Call-backs that somebody promised and owns. */
export function PromisedCallBacks(
  props: { readonly callBacks: CallBacks; readonly mayTake: boolean } & Clock,
) {
  const { callBacks, now, zone, mayTake } = props
  return (
    <Section id="call-backs" head={DESK.callBacks} note={DESK.callBacksNote}>
      {callBacks.length === 0 ? (
        <EmptyState sentence={DESK.noCallBacks} coming={DESK.noCallBacksComing} />
      ) : (
        <DataTable
          caption={DESK.callBacks}
          hideCaption
          rows={callBacks}
          keyOf={one => String(one.id)}
          columns={[
            {
              key: 'when',
              head: 'When',
              isRowHead: true,
              cell: one => {
                const minutes = (one.dueAt.getTime() - now.getTime()) / MS_PER_MINUTE
                return (
                  <>
                    {dayAndClock(one.dueAt, zone)}
                    <br />
                    <span className={minutes < 0 ? 'overdue' : 'hint'}>{dueWords(minutes)}</span>
                  </>
                )
              },
            },
            {
              key: 'what',
              head: 'What',
              cell: one => (
                <div>
                  <a href={paths.call(one.callId)}>{one.what}</a>
                  <br />
                  {callLine({ animal: one.call.animalTyped, where: one.call.whereTyped })}
                </div>
              ),
            },
            { key: 'owner', head: 'Owner', cell: one => one.owner },
            {
              key: 'do',
              head: 'Done',
              phoneLabel: '',
              cell: one => mayTake && <RangBack action={calledBack} callBackId={one.id} />,
            },
          ]}
        />
      )}
    </Section>
  )
}

/** The calls answered last. */
export function AnsweredCalls(props: { readonly calls: CallDesk['closed']; readonly zone: string }) {
  const { calls, zone } = props
  return (
    <Section id="closed" head={DESK.closed} note={DESK.closedNote}>
      {calls.length === 0 ? (
        <EmptyState sentence={DESK.noClosed} coming={DESK.noClosedComing} />
      ) : (
        <DataTable
          caption={DESK.closed}
          hideCaption
          rows={calls}
          keyOf={call => String(call.id)}
          columns={[
            { key: 'line', head: 'Call', isRowHead: true, cell: lineOf },
            {
              key: 'closed',
              head: 'Answered',
              cell: call => (call.closedAt === null ? '' : dayAndClock(call.closedAt, zone)),
            },
            { key: 'by', head: 'Taken by', cell: call => call.openedBy ?? '' },
          ]}
        />
      )}
    </Section>
  )
}

/** What is known of a call, and that it is about the same animal as the one above. */
function Known({ call, calls }: { readonly call: Calls[number]; readonly calls: Calls }) {
  const first = calls.find(({ id }) => id === call.sameAs)
  const { animalTyped, whereTyped, wrongTyped } = call.facts
  return (
    <>
      <a href={paths.call(call.id)}>
        {knownLine({ animal: animalTyped, where: whereTyped, wrong: wrongTyped })}
      </a>
      {first !== undefined && (
        <p className="same-as">
          {sameAsWords(callLine({ animal: first.facts.animalTyped, where: first.facts.whereTyped }))}
        </p>
      )}
    </>
  )
}

function lineOf({ id, facts }: CallDesk['closed'][number]) {
  return <a href={paths.call(id)}>{callLine({ animal: facts.animalTyped, where: facts.whereTyped })}</a>
}

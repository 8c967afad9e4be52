import { EmptyState } from '#app/_ui/notice.tsx'
import { Section } from '#app/_ui/section.tsx'
import { DataTable } from '#app/_ui/table.tsx'
import type { CallDesk } from '#lib/service/call.ts'
import { paths } from '#lib/web/paths.ts'
import { dayAndClock } from '#lib/words/dates.ts'
import { callLine, DESK, sinceWords } from '#lib/words/desk.ts'
import { calledBack } from '../actions.ts'
import { OneButton } from './one-button.tsx'

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
            { key: 'line', head: 'Call', isRowHead: true, cell: lineOf },
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
              cell: call => (call.state === 'parked' ? DESK.aside : DESK.isOpen),
            },
          ]}
        />
      )}
    </Section>
  )
}

/** Call-backs that somebody promised and owns. */
export function PromisedCallBacks(props: {
  readonly callBacks: CallBacks
  readonly zone: string
  readonly mayTake: boolean
}) {
  const { callBacks, zone, mayTake } = props
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
            { key: 'when', head: 'When', isRowHead: true, cell: one => dayAndClock(one.dueAt, zone) },
            { key: 'what', head: 'What', cell: one => <a href={paths.call(one.callId)}>{one.what}</a> },
            { key: 'owner', head: 'Owner', cell: one => one.owner },
            {
              key: 'do',
              head: 'Done',
              phoneLabel: '',
              cell: one =>
                mayTake && (
                  <OneButton
                    action={calledBack}
                    text={DESK.rangBack}
                    fields={{ callBackId: String(one.id) }}
                  />
                ),
            },
          ]}
        />
      )}
    </Section>
  )
}

/** The calls answered last. */
export function AnsweredCalls({ calls, zone }: { readonly calls: Calls; readonly zone: string }) {
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

function lineOf({ id, facts }: Calls[number]) {
  return <a href={paths.call(id)}>{callLine({ animal: facts.animalTyped, where: facts.whereTyped })}</a>
}

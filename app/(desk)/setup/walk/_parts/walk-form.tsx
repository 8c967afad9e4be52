'use client'

import { useActionState } from 'react'
import { Button } from '#app/_ui/button.tsx'
import { Notice } from '#app/_ui/notice.tsx'
import { Section } from '#app/_ui/section.tsx'
import { orderWord, WAYS } from '#lib/domain/walking-order.ts'
import { type FormState, FRESH } from '#lib/web/form-state.ts'
import { stepWords, WALK_PAGE, wayWords } from '#lib/words/setup-walk.ts'

type Stop = { readonly id: number; readonly name: string }
type Room = Stop & { readonly enclosures: readonly Stop[] }
type Props = {
  readonly action: (before: FormState, data: FormData) => Promise<FormState>
  readonly centreId: number
  readonly rooms: readonly Room[]
}

/** Rooms and enclosures in the order of the round, each with two buttons: works without dragging and without scripts. */
export function WalkForm({ action, centreId, rooms }: Props) {
  const [state, run] = useActionState(action, FRESH)
  const orders = [
    orderWord('room', idsOf(rooms)),
    ...rooms.map(room => orderWord('enclosure', idsOf(room.enclosures))),
  ]
  return (
    <form action={run} className="setup-form">
      {state.message !== undefined && (
        <Notice kind="changed-since" role="alert" sentence={state.message} kept={state.next} />
      )}
      <input type="hidden" name="id" value={centreId} />
      <input type="hidden" name="seen" value={orders.join(' ')} />
      <Section id="rooms" head={WALK_PAGE.rooms} strong>
        <Stops kind="room" stops={rooms} />
      </Section>
      {rooms.map(room => (
        <Section key={room.id} id={`room-${room.id}`} head={room.name}>
          <Stops kind="enclosure" stops={room.enclosures} />
        </Section>
      ))}
    </form>
  )
}

const idsOf = (stops: readonly Stop[]) => stops.map(one => one.id)

function Stops({ kind, stops }: { readonly kind: 'room' | 'enclosure'; readonly stops: readonly Stop[] }) {
  return (
    <ol className="walk">
      {stops.map((stop, at) => (
        <li key={stop.id}>
          <span>{stop.name}</span>
          {WAYS.map(way => (
            <Button
              key={way}
              weight="plain"
              name="step"
              value={`${kind}.${stop.id}.${way}`}
              aria-label={stepWords(stop.name, way)}
              disabled={way === 'earlier' ? at === 0 : at === stops.length - 1}
            >
              {wayWords(way)}
            </Button>
          ))}
        </li>
      ))}
    </ol>
  )
}

import type { CSSProperties } from 'react'
import { PLAN_WORDS, shelfWords } from '#lib/words/plan.ts'
import { Perches } from './perch.tsx'
import type { PlanCage, PlanRoom } from './plan-data.ts'

export type IndoorPlanProps = { readonly rooms: readonly PlanRoom[] }

/** The rooms of a centre in walking order: walls of cages as they stand, rooms with their doors. */
export function IndoorPlan({ rooms }: IndoorPlanProps) {
  return (
    <div className="plan">
      {rooms.map(room => (
        <section key={room.id} id={room.id} className="room" aria-labelledby={`${room.id}-name`}>
          <div className="room-head">
            <h3 id={`${room.id}-name`} className="title">
              {room.name}
            </h3>
            <p>{room.summary}</p>
          </div>
          {room.kind === 'wall' ? <Wall shelves={room.shelves} /> : <Rooms room={room} />}
        </section>
      ))}
      <p className="plan-key">{PLAN_WORDS.placesKey}</p>
    </div>
  )
}

function Wall({ shelves }: { shelves: readonly (readonly PlanCage[])[] }) {
  return (
    <div className="wall">
      {shelves.map((cages, i) => (
        <ol key={cages[0]?.id ?? i} className="shelf" aria-label={shelfWords(i, shelves.length)}>
          {cages.map(cage => (
            <Cage key={cage.id} cage={cage} />
          ))}
        </ol>
      ))}
    </div>
  )
}

function Rooms({ room }: { room: Extract<PlanRoom, { kind: 'rooms' }> }) {
  return (
    <div className="wall thick">
      <ol className="shelf">
        {room.rooms.map(cage => (
          <Cage key={cage.id} cage={cage} />
        ))}
      </ol>
      {room.lobby !== undefined && <p className="lobby">{room.lobby}</p>}
    </div>
  )
}

/** The state that the whole enclosure shows: that of its places when they agree. */
function stateOf(cage: PlanCage): string {
  const [first, ...others] = cage.places
  if (first === undefined) return ''
  return others.every(place => place.kind === first.kind) ? ` all-${first.kind}` : ''
}

function Cage({ cage }: { cage: PlanCage }) {
  return (
    <li className={`cage${stateOf(cage)}`} style={{ '--w': cage.width } as CSSProperties}>
      <span className="no">
        <span className="vh">{PLAN_WORDS.place} </span>
        {cage.label}
      </span>
      <Perches places={cage.places} />
    </li>
  )
}

import type { Metadata } from 'next'
import { EmptyState } from '#app/_ui/notice.tsx'
import { Section } from '#app/_ui/section.tsx'
import { may } from '#lib/authz/demand.ts'
import { getWalk } from '#lib/service/setup/walk.ts'
import { load } from '#lib/web/load.ts'
import { pageNumber, pageWord } from '#lib/web/params.ts'
import { requireActor } from '#lib/web/session.ts'
import { WALK_PAGE, walkAnswer } from '#lib/words/setup-walk.ts'
import { SetupFrame } from '../../_parts/frame.tsx'
import { WalkForm } from '../_parts/walk-form.tsx'
import { changeWalkAction } from '../actions.ts'

export const metadata: Metadata = { title: WALK_PAGE.title }

export default async function WalkPage({ params, searchParams }: PageProps<'/setup/walk/[id]'>) {
  const [actor, { id }, { kept }] = await Promise.all([requireActor(), params, searchParams])
  const walk = await load(getWalk(actor, pageNumber(id)))
  return (
    <SetupFrame noun="rooms" sentence={walkAnswer(walk.name)} basis={WALK_PAGE.basis} kept={pageWord(kept)}>
      {walk.rooms.length === 0 ? (
        <EmptyState sentence={WALK_PAGE.noRooms} coming={WALK_PAGE.noRoomsComing} />
      ) : may(actor, 'setup.housing') ? (
        <WalkForm action={changeWalkAction} centreId={walk.id} rooms={walk.rooms} />
      ) : (
        walk.rooms.map((room, at) => (
          <Section key={room.id} id={`room-${room.id}`} head={room.name} strong={at === 0}>
            <ol className="lines">
              {room.enclosures.map(one => (
                <li key={one.id}>{one.name}</li>
              ))}
            </ol>
          </Section>
        ))
      )}
    </SetupFrame>
  )
}

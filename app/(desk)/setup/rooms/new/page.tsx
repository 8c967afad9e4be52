import type { Metadata } from 'next'
import { listCentresForRoom } from '#lib/service/setup/room.ts'
import { load } from '#lib/web/load.ts'
import { requireActor } from '#lib/web/session.ts'
import { addWords } from '#lib/words/setup-page.ts'
import { SetupFrame } from '../../_parts/frame.tsx'
import { SetupForm } from '../../_parts/setup-form.tsx'
import { roomParts } from '../_parts/room-parts.ts'
import { addRoomAction } from '../actions.ts'

export const metadata: Metadata = { title: addWords('a room') }

export default async function NewRoomPage() {
  const centres = await load(listCentresForRoom(await requireActor()))
  return (
    <SetupFrame noun="rooms" sentence={addWords('a room')}>
      <SetupForm
        action={addRoomAction}
        parts={roomParts(undefined, centres)}
        submit={addWords('this room')}
      />
    </SetupFrame>
  )
}

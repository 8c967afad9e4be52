import type { Metadata } from 'next'
import { may } from '#lib/authz/demand.ts'
import { getRoom } from '#lib/service/setup/room.ts'
import { load } from '#lib/web/load.ts'
import { pageNumber, pageWord } from '#lib/web/params.ts'
import { paths } from '#lib/web/paths.ts'
import { requireActor } from '#lib/web/session.ts'
import { SETUP } from '#lib/words/setup.ts'
import { switchedWords } from '#lib/words/setup-page.ts'
import { SetupFrame } from '../../_parts/frame.tsx'
import { RecordForm } from '../../_parts/record-form.tsx'
import { SwitchSection } from '../../_parts/switch-section.tsx'
import { roomParts } from '../_parts/room-parts.ts'
import { changeRoomAction, switchRoomAction } from '../actions.ts'

export const metadata: Metadata = { title: SETUP.rooms }

export default async function RoomPage({ params, searchParams }: PageProps<'/setup/rooms/[id]'>) {
  const [actor, { id }, { kept }] = await Promise.all([requireActor(), params, searchParams])
  const room = await load(getRoom(actor, pageNumber(id)))
  const mayChange = may(actor, 'setup.housing')
  return (
    <SetupFrame
      noun="rooms"
      sentence={switchedWords(`${room.name}, ${room.centre}`, room.isActive)}
      kept={pageWord(kept)}
    >
      <RecordForm
        mayChange={mayChange}
        action={changeRoomAction}
        parts={roomParts(room)}
        id={room.id}
        version={room.version}
        here={paths.setupItem('rooms', room.id)}
      />
      {mayChange && (
        <SwitchSection
          action={switchRoomAction}
          id={room.id}
          version={room.version}
          isActive={room.isActive}
        />
      )}
    </SetupFrame>
  )
}

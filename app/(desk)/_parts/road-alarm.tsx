import { ButtonLink } from '#app/_ui/button.tsx'
import { Notice } from '#app/_ui/notice.tsx'
import type { PersonActor } from '#lib/authz/actor.ts'
import { may } from '#lib/authz/demand.ts'
import { readRoadTrouble, readStoppedRoad } from '#lib/service/road.ts'
import { paths } from '#lib/web/paths.ts'
import { MOVES, troubleKept, troubleSentence } from '#lib/words/road.ts'
import { StoppedNotice } from './stopped-notice.tsx'

type Props = { readonly actor: PersonActor; readonly now: Date; readonly zone: string }

/** Stands above every page of whoever can do something about a driver who is late, can't, or leads into a movement stop. */
export async function RoadAlarm({ actor, now, zone }: Props) {
  if (!may(actor, 'move.arrange')) return null
  const [trouble, stopped] = await Promise.all([readRoadTrouble(actor), readStoppedRoad(actor, now)])
  return (
    <>
      {stopped.map(stop => (
        <StoppedNotice
          key={`${stop.journeyId}:${stop.stopId}`}
          stop={stop}
          zone={zone}
          todo={<ButtonLink href={paths.journey(stop.journeyId)}>{MOVES.open}</ButtonLink>}
        />
      ))}
      {trouble.map(({ journey, leg }) => (
        <Notice
          key={leg.id}
          kind="first"
          sentence={troubleSentence(journey, leg)}
          kept={troubleKept(journey, leg, now, zone)}
          todo={<ButtonLink href={paths.journey(journey.id)}>{MOVES.open}</ButtonLink>}
        />
      ))}
    </>
  )
}

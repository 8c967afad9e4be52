/** Rooms and enclosures of all centres in walking order, numbered from 1 over the whole network. */

import type { EnclosurePlan } from './centre-types.ts'
import { CENTRES } from './centres.ts'

export type RoomRow = {
  readonly id: number
  readonly centre_id: number
  readonly name: string
  readonly kind: string
  readonly walking_order: number
  readonly predators_apart: boolean
}

export type EnclosureRow = {
  readonly id: number
  readonly room_id: number
  readonly centre_id: number
  readonly name: string
  readonly housing_type: EnclosurePlan['type']
  readonly size_rank: number
  readonly width_m: number
  readonly length_m: number
  readonly height_m: number
  readonly features: readonly string[]
  readonly turnaround_min: number
  readonly dries_after: 'each' | 'company'
  readonly walking_order: number
}

export type Enclosure = EnclosureRow & { readonly plan: EnclosurePlan; readonly isForStory: boolean }

/** Every room. */
export function listRooms(): RoomRow[] {
  return CENTRES.flatMap((centre, at) =>
    centre.rooms.map((room, order) => ({
      centre_id: at + 1,
      name: room.name,
      kind: room.kind,
      walking_order: order + 1,
      predators_apart: room.predatorsApart ?? false,
    })),
  ).map((room, at) => ({ id: at + 1, ...room }))
}

/** Every enclosure with the plan it was laid out by. */
export function listEnclosures(): Enclosure[] {
  const rooms = listRooms()
  const plans = CENTRES.flatMap((centre, at) =>
    centre.rooms.flatMap(room => {
      const roomId = rooms.find(row => row.centre_id === at + 1 && row.name === room.name)?.id ?? 0
      return room.enclosures
        .flatMap(plan => Array.from({ length: plan.count }, (_, nth) => ({ plan, nth: nth + 1 })))
        .map((one, order) => ({ ...one, order: order + 1, roomId, centreId: at + 1 }))
    }),
  )
  return plans.map(({ plan, nth, order, roomId, centreId }, at) => ({
    id: at + 1,
    room_id: roomId,
    centre_id: centreId,
    name: plan.count === 1 ? plan.called : `${plan.called} ${nth}`,
    housing_type: plan.type,
    size_rank: plan.sizeRank,
    width_m: plan.metres[0],
    length_m: plan.metres[1],
    height_m: plan.metres[2],
    features: plan.features ?? [],
    turnaround_min: plan.turnaroundMin ?? 0,
    dries_after: plan.driesAfter ?? 'company',
    walking_order: order,
    plan,
    isForStory: nth <= (plan.storyCount ?? 0),
  }))
}

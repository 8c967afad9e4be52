import { ROOM_KINDS, room as roomSchema } from '#lib/domain/centre.ts'
import { roomKindWords } from '#lib/words/setup.ts'
import { ROOM_FORM } from '#lib/words/setup-form.ts'
import { SETUP_PAGE } from '#lib/words/setup-page.ts'
import { type FieldSpec, number, type Part, said, select, text } from '../../_parts/spec.ts'

type RoomAsked = {
  readonly name: string
  readonly kind: string
  readonly walkingOrder: number
  readonly predatorsApart: boolean
}

/** What is asked about a room; a new one also says which centre it belongs to. */
export function roomParts(
  room: RoomAsked | undefined,
  centres: readonly { readonly id: number; readonly name: string }[] = [],
): Part[] {
  const { name, kind, walkingOrder, predatorsApart } = roomSchema.shape
  const where: FieldSpec[] =
    room === undefined
      ? [
          {
            kind: 'select',
            name: 'centreId',
            label: SETUP_PAGE.centre,
            start: '',
            none: SETUP_PAGE.choose,
            options: centres.map(centre => ({ value: String(centre.id), text: centre.name })),
          },
        ]
      : []
  return [
    {
      id: 'room',
      head: ROOM_FORM.head,
      note: ROOM_FORM.note,
      fields: [
        ...where,
        text('name', name, room?.name),
        select(
          'kind',
          kind,
          room?.kind ?? 'ward',
          ROOM_KINDS.map(one => ({ value: one, text: roomKindWords(one) })),
        ),
        number('walkingOrder', walkingOrder, room?.walkingOrder),
        {
          kind: 'tick',
          name: 'predatorsApart',
          ...said(predatorsApart),
          start: room?.predatorsApart ?? false,
        },
      ],
    },
  ]
}

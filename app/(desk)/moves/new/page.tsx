import type { Metadata } from 'next'
import { z } from 'zod'
import { Answer } from '#app/_ui/section.tsx'
import type { FieldSpec } from '#app/(desk)/casualties/_parts/field-spec.ts'
import { localDateTimeText } from '#lib/domain/text.ts'
import { type PlanForm as Asked, readPlanForm } from '#lib/service/road.ts'
import { load } from '#lib/web/load.ts'
import { currentDay } from '#lib/web/network.ts'
import { pageWord } from '#lib/web/params.ts'
import { paths } from '#lib/web/paths.ts'
import { requireActor } from '#lib/web/session.ts'
import { planSentence, ROAD, travellerLabel } from '#lib/words/road.ts'
import { Desk } from '../../_parts/desk.tsx'
import { legFields } from '../_parts/leg-fields.ts'
import { PlanForm } from '../_parts/plan-form.tsx'
import { planned } from '../actions.ts'
import '../moves.css'

export const metadata: Metadata = { title: ROAD.plan }

const LEGS_OFFERED = 3
const FIRST_LEG_MINUTES = 60
const MS_PER_MINUTE = 60_000

type Props = { readonly searchParams: Promise<Record<string, string | string[] | undefined>> }

export default async function PlanDrivePage({ searchParams }: Props) {
  const [actor, query, { now, zone }] = await Promise.all([requireActor(), searchParams, currentDay()])
  const reference = pageWord(query['animal']) ?? ''
  const asked = await load(readPlanForm(actor, reference, now))
  const [first] = asked.travellers
  if (first === undefined) return null
  const local = (at: Date) => z.encode(localDateTimeText(zone), at)
  const withFinder = first.keeper === 'finder'
  const start = {
    fromWords: first.centre ?? '',
    toWords: first.heldAt ?? '',
    pickUpAt: local(now),
    dueAt: local(new Date(now.getTime() + FIRST_LEG_MINUTES * MS_PER_MINUTE)),
  }
  return (
    <Desk current="moves">
      <Answer
        reference={first.reference}
        place={
          <>
            {first.species}
            <br />
            <a href={paths.casualty(first.reference)}>{ROAD.toAnimal}</a>
          </>
        }
        sentence={planSentence(first)}
      />
      <PlanForm
        action={planned}
        animals={asked.travellers.map(one => ({
          value: String(one.casualtyId),
          label: travellerLabel(one),
        }))}
        first={String(first.casualtyId)}
        about={aboutFields(asked)}
        legs={Array.from({ length: LEGS_OFFERED }, (_, at) =>
          legFields(`legs.${at}.`, { drivers: asked.drivers, withFinder }, at === 0 ? start : {}),
        )}
      />
    </Desk>
  )
}

function aboutFields({ travellers, centres, practices }: Asked): FieldSpec[] {
  const [first] = travellers
  const held = first?.heldAtCentreId ?? null
  return [
    {
      kind: 'select',
      name: 'to',
      label: ROAD.to,
      none: ROAD.chooseGoal,
      start: held === null ? '' : `centre:${held}`,
      options: [
        ...centres
          .filter(({ id }) => id !== first?.centreId)
          .map(({ id, name }) => ({ value: `centre:${id}`, text: name, group: ROAD.centres })),
        ...practices.map(({ id, name }) => ({
          value: `practice:${id}`,
          text: name,
          group: ROAD.practices,
        })),
      ],
    },
    { kind: 'words', name: 'carry', label: ROAD.carry, hint: ROAD.carryHint },
  ]
}

import type { Metadata } from 'next'
import { Actions, ButtonLink } from '#app/_ui/button.tsx'
import { Notice } from '#app/_ui/notice.tsx'
import { Answer, Section } from '#app/_ui/section.tsx'
import { type Door, readDoor } from '#lib/service/at-the-door.ts'
import { load } from '#lib/web/load.ts'
import { pageNumber, pageWord } from '#lib/web/params.ts'
import { paths } from '#lib/web/paths.ts'
import { requireActor } from '#lib/web/session.ts'
import { cautionWords } from '#lib/words/caution.ts'
import { cameWords, DOOR, labelWords, putWords } from '#lib/words/door.ts'
import { Desk } from '../../_parts/desk.tsx'
import { cameIn } from '../actions.ts'
import { DoorForm } from './_parts/door-form.tsx'
import '../door.css'

export const metadata: Metadata = { title: DOOR.title }

type Props = {
  readonly params: Promise<{ readonly centreId: string }>
  readonly searchParams: Promise<Record<string, string | string[] | undefined>>
}

export default async function DoorPage({ params, searchParams }: Props) {
  const [actor, { centreId }, query] = await Promise.all([requireActor(), params, searchParams])
  const arrival = pageWord(query['came'])
  const door = await load(
    readDoor(actor, pageNumber(centreId), arrival === undefined ? undefined : pageNumber(arrival)),
  )
  const { centre, came } = door
  const enclosures = centre.rooms.flatMap(room =>
    room.enclosures.map(({ id, name }) => ({ value: String(id), text: name, group: room.name })),
  )
  return (
    <Desk current="round">
      <Answer
        reference={centre.name}
        place={DOOR.title}
        sentence={
          came === undefined
            ? DOOR.sentence
            : cameWords(came.references.length, came.kind?.common_name ?? came.species)
        }
        basis={came === undefined ? DOOR.note : labelWords(came.references)}
      />
      {came === undefined ? <Outside /> : <Came came={came} centreId={centre.id} />}
      <Section id="came" head={came === undefined ? DOOR.form : DOOR.another} strong>
        <DoorForm
          // A new form once something came in.
          key={arrival ?? ''}
          action={cameIn}
          centreId={centre.id}
          animalNames={door.animalNames}
          looks={door.standIns.map(one => ({ value: one.slug, text: one.common_name }))}
          enclosures={enclosures}
        />
      </Section>
    </Desk>
  )
}

/** Before anything is carried in. */
function Outside() {
  return <Notice kind="first" sentence={DOOR.outside} kept={`${DOOR.outsideKept} ${DOOR.bats}.`} />
}

/** What was taken in: its references, where it is, what to mind, what to do next. */
function Came({ came, centreId }: { readonly came: NonNullable<Door['came']>; readonly centreId: number }) {
  const [first = ''] = came.references
  return (
    <>
      <Section id="in" head={putWords(came.enclosure)} strong>
        <ul className="door-in">
          {came.references.map(reference => (
            <li key={reference}>
              <a className="ref" href={paths.casualty(reference)}>
                {reference}
              </a>
            </li>
          ))}
        </ul>
        <Actions>
          <ButtonLink href={`${paths.casualty(first, { to: centreId })}#move`}>{DOOR.findPlace}</ButtonLink>
          <ButtonLink weight="plain" href={paths.round(centreId)}>
            {DOOR.toRound}
          </ButtonLink>
        </Actions>
      </Section>
      {came.cautions
        .filter(({ id }) => id !== 'licence')
        .map(caution => {
          const { head, say, mark } = cautionWords(caution)
          return (
            <Notice
              key={caution.id}
              kind="mind"
              sentence={head}
              kept={
                <>
                  {say} <small>{mark}</small>
                </>
              }
            />
          )
        })}
    </>
  )
}

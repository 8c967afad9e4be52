import type { Metadata } from 'next'
import { redirect } from 'next/navigation'
import { Answer, Section } from '#app/_ui/section.tsx'
import { maySeeDoors } from '#lib/service/at-the-door.ts'
import { listRounds } from '#lib/service/round.ts'
import { load } from '#lib/web/load.ts'
import { paths } from '#lib/web/paths.ts'
import { requireActor } from '#lib/web/session.ts'
import { DOOR } from '#lib/words/door.ts'
import { Desk } from '../_parts/desk.tsx'

export const metadata: Metadata = { title: DOOR.title }

/** Whoever has one centre stands at its door; the others say which. */
export default async function DoorsPage() {
  const actor = await requireActor()
  await load(maySeeDoors(actor))
  const centres = await load(listRounds(actor))
  const [only, ...others] = centres
  if (only !== undefined && others.length === 0) redirect(paths.door(only.id))
  return (
    <Desk current="round">
      <Answer place={DOOR.title} sentence={DOOR.choose} />
      <Section id="doors" head={DOOR.choose} note={DOOR.chooseNote} strong>
        <ul className="who-kinds">
          {centres.map(({ id, name }) => (
            <li key={id}>
              <a href={paths.door(id)}>{name}</a>
            </li>
          ))}
        </ul>
      </Section>
    </Desk>
  )
}

import type { Metadata } from 'next'
import { EmptyState } from '#app/_ui/notice.tsx'
import { Answer, Section } from '#app/_ui/section.tsx'
import { type DueSection, readDue } from '#lib/service/due.ts'
import { currentOwed } from '#lib/web/line.ts'
import { load } from '#lib/web/load.ts'
import { currentDay } from '#lib/web/network.ts'
import { requireActor } from '#lib/web/session.ts'
import { DUE, dueRoleHead, dueRoleNote, dueSentence, laterHead } from '#lib/words/due.ts'
import { Desk } from '../_parts/desk.tsx'
import { type Clock, DueList } from './_parts/due-list.tsx'
import './due.css'

export const metadata: Metadata = { title: DUE.title }

export default async function DuePage() {
  const [actor, { now, zone }] = await Promise.all([requireActor(), currentDay()])
  const { sections, all } = await load(readDue(actor, now, currentOwed(actor)))
  return (
    <Desk current="due">
      <Answer reference={DUE.title} sentence={dueSentence(all, now, zone)} basis={DUE.basis} />
      {sections.map((section, nth) => (
        <OfRole key={section.role} section={section} isFirst={nth === 0} now={now} zone={zone} />
      ))}
    </Desk>
  )
}

function OfRole(props: { readonly section: DueSection; readonly isFirst: boolean } & Clock) {
  const { section, isFirst, now, zone } = props
  const { role, due, later } = section
  return (
    <Section id={role} head={dueRoleHead(role)} note={dueRoleNote(role)} strong={isFirst}>
      {due.length === 0 ? (
        <EmptyState sentence={DUE.nothingOf} coming={DUE.nothingOfComing} />
      ) : (
        <DueList caption={dueRoleHead(role)} items={due} now={now} zone={zone} />
      )}
      {later.length > 0 && (
        <details className="astable">
          <summary>{laterHead(later.length)}</summary>
          <div className="inner">
            <DueList caption={laterHead(later.length)} items={later} now={now} zone={zone} />
          </div>
        </details>
      )}
    </Section>
  )
}

import type { ReactNode } from 'react'
import { ButtonLink } from '#app/_ui/button.tsx'
import { type Column, DataTable } from '#app/_ui/table.tsx'
import { OneButton } from '#app/(desk)/calls/_parts/one-button.tsx'
import type { DueItem } from '#lib/domain/due.ts'
import { DUE, dueWords, whenWords } from '#lib/words/due.ts'
import { rangBack } from '../actions.ts'
import { dueLink } from './due-link.ts'

export type Clock = { readonly now: Date; readonly zone: string }

/** What is owed as ruled lines: by when, what, and the one thing to do. */
export function DueList(
  props: {
    readonly caption: string
    readonly items: readonly DueItem[]
    /** Further columns, between what and the button. */
    readonly more?: readonly Column<DueItem>[]
  } & Clock,
) {
  const { caption, items, more = [], now, zone } = props
  return (
    <DataTable
      caption={caption}
      hideCaption
      rows={items}
      keyOf={item => item.key}
      columns={[
        {
          key: 'when',
          head: DUE.when,
          phoneLabel: '',
          cell: item => <When item={item} now={now} zone={zone} />,
        },
        { key: 'what', head: DUE.what, isRowHead: true, cell: item => <What item={item} zone={zone} /> },
        ...more,
        { key: 'do', head: DUE.todo, phoneLabel: '', cell: item => <Todo item={item} zone={zone} /> },
      ]}
    />
  )
}

export function When({ item, now, zone }: { readonly item: DueItem } & Clock) {
  const { at, off } = whenWords(item, now, zone)
  return (
    <>
      <time dateTime={item.at.toISOString()}>{at}</time> <span className="due-off">{off}</span>
    </>
  )
}

export function What({ item, zone }: { readonly item: DueItem; readonly zone: string }): ReactNode {
  const { what, more } = dueWords(item, zone)
  return (
    <>
      <a href={dueLink(item.about)}>{what}</a>
      {more !== '' && <span className="due-more">{more}</span>}
    </>
  )
}

/** A call-back is done here; everything else where it belongs. */
function Todo({ item, zone }: { readonly item: DueItem; readonly zone: string }) {
  if (item.about.kind === 'call-back') {
    return (
      <OneButton
        action={rangBack}
        text={DUE.rangBack}
        fields={{ callBackId: item.key.split(':')[1] ?? '' }}
      />
    )
  }
  return <ButtonLink href={dueLink(item.about)}>{dueWords(item, zone).todo}</ButtonLink>
}

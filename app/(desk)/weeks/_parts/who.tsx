import type { ReactNode } from 'react'
import { EmptyState } from '#app/_ui/notice.tsx'
import { SmallRibbon } from '#app/_ui/ribbon/stay-ribbon.tsx'
import { Section } from '#app/_ui/section.tsx'
import { AsTable, type Column, DataTable } from '#app/_ui/table.tsx'
import type { DayNumber } from '#lib/domain/day.ts'
import type { Needer, Needers } from '#lib/service/weeks-who.ts'
import { paths } from '#lib/web/paths.ts'
import { perCent } from '#lib/words/chance.ts'
import { WEEKS, WEEKS_HEADS } from '#lib/words/weeks.ts'
import {
  aboutAnimals,
  moreWords,
  NEXT_TO_NONE,
  needsWords,
  WHO_WORDS,
  whoNote,
} from '#lib/words/weeks-why.ts'

type Props = {
  readonly needers: Needers
  readonly worstDay: DayNumber
  readonly today: DayNumber
  /** Whether the reader may open an animal that is at this centre. */
  readonly mayOpen: (centreId: number | null) => boolean
}

/** Who needs the class's places on its worst day, the likeliest first; at last those who are not known yet. */
export function Who({ needers, worstDay, today, mayOpen }: Props) {
  const { all, unknownAnimals } = needers
  const drawn = all.filter(({ ribbon }) => ribbon !== undefined)
  const rest = all.filter(({ ribbon }) => ribbon === undefined)
  const isEmpty = all.length === 0 && unknownAnimals < NEXT_TO_NONE
  const columns = columnsFor(today, mayOpen)
  const unknown = [WHO_WORDS.unknown, WHO_WORDS.usualRun, null, null, aboutAnimals(unknownAnimals)]
  return (
    <Section id="who" head={WEEKS.who} note={whoNote(worstDay)}>
      {isEmpty ? (
        <EmptyState sentence={WHO_WORDS.nobody} coming={WHO_WORDS.nobodyComing} />
      ) : (
        <Rows rows={drawn} columns={columns} foot={unknown} />
      )}
      {rest.length > 0 && (
        <AsTable label={moreWords(rest.length)}>
          <Rows rows={rest} columns={columns} />
        </AsTable>
      )}
    </Section>
  )
}

type RowsProps = {
  readonly rows: readonly Needer[]
  readonly columns: readonly Column<Needer>[]
  readonly foot?: readonly ReactNode[]
}

function Rows({ rows, columns, foot }: RowsProps) {
  return (
    <DataTable
      caption={WEEKS.who}
      hideCaption
      rows={rows}
      keyOf={row => row.reference}
      columns={columns}
      {...(foot && { foot })}
    />
  )
}

function columnsFor(today: DayNumber, mayOpen: Props['mayOpen']): Column<Needer>[] {
  return [
    {
      key: 'animal',
      head: WEEKS_HEADS.animal,
      isRowHead: true,
      cell: row =>
        mayOpen(row.centreId) ? <a href={paths.casualty(row.reference)}>{nameOf(row)}</a> : nameOf(row),
    },
    { key: 'now', head: WEEKS_HEADS.nowIn, cell: row => row.nowIn },
    {
      key: 'ahead',
      head: WEEKS_HEADS.ahead,
      cell: ({ ribbon }) => ribbon && <SmallRibbon data={{ ...ribbon, todayDay: today, checks: [] }} />,
    },
    { key: 'needs', head: WEEKS_HEADS.needs, cell: row => needsWords(row.from, row.until, row.isHere) },
    { key: 'chance', head: WEEKS_HEADS.chance, right: true, cell: row => perCent(row.chance) },
  ]
}

function nameOf({ species, reference }: Needer) {
  return (
    <>
      {species} <span className="ref">{reference}</span>
    </>
  )
}

import type { ReactNode } from 'react'
import { EmptyState } from '#app/_ui/notice.tsx'
import { SmallRibbon } from '#app/_ui/ribbon/stay-ribbon.tsx'
import { Section } from '#app/_ui/section.tsx'
import { AsTable, type Column, DataTable } from '#app/_ui/table.tsx'
import type { DayNumber } from '#lib/domain/day.ts'
import type { Needer, Needers } from '#lib/service/weeks-who.ts'
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

type Props = { readonly needers: Needers; readonly worstDay: DayNumber; readonly today: DayNumber }

/** Who needs the class's places on its worst day, the likeliest first; at last those who are not known yet. */
export function Who({ needers, worstDay, today }: Props) {
  const { all, unknownAnimals } = needers
  const drawn = all.filter(({ ribbon }) => ribbon !== undefined)
  const rest = all.filter(({ ribbon }) => ribbon === undefined)
  const isEmpty = all.length === 0 && unknownAnimals < NEXT_TO_NONE
  const unknown = [WHO_WORDS.unknown, WHO_WORDS.usualRun, null, null, aboutAnimals(unknownAnimals)]
  return (
    <Section id="who" head={WEEKS.who} note={whoNote(worstDay)}>
      {isEmpty ? (
        <EmptyState sentence={WHO_WORDS.nobody} coming={WHO_WORDS.nobodyComing} />
      ) : (
        <Rows rows={drawn} today={today} foot={unknown} />
      )}
      {rest.length > 0 && (
        <AsTable label={moreWords(rest.length)}>
          <Rows rows={rest} today={today} />
        </AsTable>
      )}
    </Section>
  )
}

type RowsProps = {
  readonly rows: readonly Needer[]
  readonly today: DayNumber
  readonly foot?: readonly ReactNode[]
}

function Rows({ rows, today, foot }: RowsProps) {
  return (
    <DataTable
      caption={WEEKS.who}
      hideCaption
      rows={rows}
      keyOf={row => row.reference}
      columns={columnsFor(today)}
      {...(foot && { foot })}
    />
  )
}

function columnsFor(today: DayNumber): Column<Needer>[] {
  return [
    {
      key: 'animal',
      head: WEEKS_HEADS.animal,
      isRowHead: true,
      cell: row => (
        <>
          {row.species} <span className="ref">{row.reference}</span>
        </>
      ),
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

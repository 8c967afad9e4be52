import { EmptyState } from '#app/_ui/notice.tsx'
import type { RibbonData } from '#app/_ui/ribbon/ribbon-data.ts'
import { SmallRibbon } from '#app/_ui/ribbon/stay-ribbon.tsx'
import { Section } from '#app/_ui/section.tsx'
import { DataTable } from '#app/_ui/table.tsx'
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

type Props = { readonly needers: Needers; readonly worstDay: DayNumber; readonly today: DayNumber }

/** Who needs the class's places on its worst day, the likeliest first; at last those who are not known yet. */
export function Who({ needers, worstDay, today }: Props) {
  const { shown, more, unknownAnimals } = needers
  const isEmpty = shown.length === 0 && unknownAnimals < NEXT_TO_NONE
  return (
    <Section id="who" head={WEEKS.who} note={whoNote(worstDay)}>
      {isEmpty ? (
        <EmptyState sentence={WHO_WORDS.nobody} coming={WHO_WORDS.nobodyComing} />
      ) : (
        <DataTable
          caption={WEEKS.who}
          hideCaption
          rows={shown}
          keyOf={row => row.reference}
          columns={[
            {
              key: 'animal',
              head: WEEKS_HEADS.animal,
              isRowHead: true,
              cell: row => (
                <a href={paths.casualty(row.reference)}>
                  {row.species} <span className="ref">{row.reference}</span>
                </a>
              ),
            },
            { key: 'now', head: WEEKS_HEADS.nowIn, cell: row => row.nowIn },
            {
              key: 'ahead',
              head: WEEKS_HEADS.ahead,
              cell: row => <SmallRibbon data={ribbonOf(row, today)} />,
            },
            {
              key: 'needs',
              head: WEEKS_HEADS.needs,
              cell: row => needsWords(row.from, row.until, row.isHere),
            },
            { key: 'chance', head: WEEKS_HEADS.chance, right: true, cell: row => perCent(row.chance) },
          ]}
          foot={[WHO_WORDS.unknown, WHO_WORDS.usualRun, null, null, aboutAnimals(unknownAnimals)]}
        />
      )}
      {more > 0 && <p className="fan-key">{moreWords(more)}</p>}
    </Section>
  )
}

function ribbonOf({ startDay, stages, groundByDay }: Needer, todayDay: DayNumber): RibbonData {
  return { startDay, todayDay, stages, groundByDay, checks: [] }
}

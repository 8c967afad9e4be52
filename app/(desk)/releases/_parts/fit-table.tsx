import { DataTable } from '#app/_ui/table.tsx'
import type { DayNumber } from '#lib/domain/day.ts'
import type { FitAnimal } from '#lib/service/release.ts'
import { paths } from '#lib/web/paths.ts'
import { barSentence, fitSinceWords, RELEASE, waitWords } from '#lib/words/release.ts'

type Props = {
  readonly caption: string
  readonly animals: readonly FitAnimal[]
  readonly today: DayNumber
  readonly since: string
}

/** Who is ready to go and still here, the longest first, with what they wait for and what stands against them. */
export function FitTable({ caption, animals, today, since }: Props) {
  return (
    <DataTable
      caption={caption}
      hideCaption
      rows={animals}
      keyOf={one => one.reference}
      columns={[
        { key: 'animal', head: RELEASE.animal, isRowHead: true, cell: one => <Animal animal={one} /> },
        {
          key: 'where',
          head: RELEASE.where,
          cell: one => [one.enclosure, one.centre].filter(Boolean).join(', '),
        },
        { key: 'since', head: since, cell: one => fitSinceWords(one.fitOn, today) },
        { key: 'waits', head: RELEASE.waits, cell: one => waitWords(one.waitsFor) },
        { key: 'against', head: RELEASE.against, cell: one => <Against animal={one} /> },
      ]}
    />
  )
}

function Animal({ animal }: { readonly animal: FitAnimal }) {
  return (
    <>
      <a href={paths.casualty(animal.reference)}>{animal.reference}</a>, {animal.speciesName}
    </>
  )
}

function Against({ animal }: { readonly animal: FitAnimal }) {
  if (animal.bars.length === 0) return <span className="sub">{RELEASE.nothingAgainst}</span>
  return (
    <ul className="bars">
      {animal.bars.map(bar => {
        const words = barSentence(bar)
        return <li key={words}>{words}</li>
      })}
    </ul>
  )
}

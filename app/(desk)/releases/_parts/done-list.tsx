import { DataTable } from '#app/_ui/table.tsx'
import type { ShownRelease } from '#lib/service/release.ts'
import { paths } from '#lib/web/paths.ts'
import { dayAndClock } from '#lib/words/dates.ts'
import { animalOf, RELEASE, ringWords, siteWords } from '#lib/words/release.ts'

type Props = { readonly done: readonly ShownRelease[]; readonly zone: string }

/** Releases done, an animal a line of its own within them. */
export function DoneList({ done, zone }: Props) {
  return (
    <DataTable
      caption={RELEASE.done}
      hideCaption
      rows={done}
      keyOf={one => String(one.id)}
      columns={[
        { key: 'at', head: RELEASE.at, isRowHead: true, cell: one => dayAndClock(one.at, zone) },
        { key: 'site', head: RELEASE.site, cell: one => siteWords(one.place) },
        { key: 'animals', head: RELEASE.animal, cell: one => <Animals release={one} /> },
        { key: 'releaser', head: RELEASE.releaser, cell: one => one.releaser },
      ]}
    />
  )
}

function Animals({ release }: { readonly release: ShownRelease }) {
  return (
    <ul className="bars">
      {release.animals.map(one => (
        <li key={one.id}>
          <a href={paths.casualty(one.reference)}>{animalOf(one.reference, one.speciesName)}</a>,{' '}
          {ringWords(one.ring)}
          {one.isFlagged && <span className="must">{RELEASE.flagged}</span>}
        </li>
      ))}
    </ul>
  )
}

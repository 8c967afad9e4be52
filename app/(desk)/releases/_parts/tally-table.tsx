import { DataTable } from '#app/_ui/table.tsx'
import type { Tally } from '#lib/service/tally.ts'
import { RELEASE, stateWords } from '#lib/words/release.ts'

/** Everything admitted this year by how it stands; the foot is what the lines add up to. */
export function TallyTable({ tally }: { readonly tally: Tally }) {
  const { lines, admitted } = tally
  return (
    <DataTable
      caption={RELEASE.tally}
      hideCaption
      rows={lines}
      keyOf={line => line.state}
      columns={[
        { key: 'state', head: RELEASE.stands, isRowHead: true, cell: line => stateWords(line.state) },
        { key: 'animals', head: RELEASE.animals, right: true, cell: line => String(line.animals) },
        { key: 'arrivals', head: RELEASE.arrivals, right: true, cell: line => String(line.arrivals) },
      ]}
      foot={[RELEASE.admitted, String(admitted.animals), String(admitted.arrivals)]}
    />
  )
}

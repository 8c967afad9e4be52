import { DataTable } from '#app/_ui/table.tsx'
import type { HorizonShown } from '#lib/service/judged-view.ts'
import { capital } from '#lib/words/capital.ts'
import { perCent } from '#lib/words/chance.ts'
import { JUDGED, laterWords, scaleSentence, tenthWords } from '#lib/words/judged.ts'
import { barsOf } from './scale-data.ts'

/** Where what came lay on the scale of its forecast: a picture a horizon, and all of them as one table. */
export function ScalePictures({ rows }: { readonly rows: readonly HorizonShown[] }) {
  const tenths = rows[0]?.pit.map((_, tenth) => tenth) ?? []
  const highest = Math.max(...rows.flatMap(({ pit }) => pit))
  return (
    <>
      <h3>{JUDGED.scale}</h3>
      <p className="records-said">{JUDGED.scaleMeans}</p>
      <div className="scales">
        {rows.map(({ horizon, pit }) => (
          <figure key={horizon}>
            <figcaption>
              {capital(laterWords(horizon))}
              <span className="vh">{`. ${scaleSentence(horizon, pit)}`}</span>
            </figcaption>
            <Bars pit={pit} highest={highest} />
          </figure>
        ))}
      </div>
      <DataTable
        caption={JUDGED.scaleCaption}
        rows={tenths}
        keyOf={String}
        columns={[
          { key: 'tenth', head: JUDGED.tenth, isRowHead: true, cell: tenthWords },
          ...rows.map(({ horizon, pit }) => ({
            key: String(horizon),
            head: capital(laterWords(horizon)),
            right: true,
            cell: (tenth: number) => perCent(pit[tenth] ?? 0),
          })),
        ]}
      />
    </>
  )
}

function Bars({ pit, highest }: { readonly pit: readonly number[]; readonly highest: number }) {
  const { bars, right } = barsOf(pit, highest)
  return (
    <svg aria-hidden="true" focusable="false" preserveAspectRatio="none" viewBox={`0 0 ${pit.length} 100`}>
      <path className="scale-bar" d={bars} />
      <line className="scale-base" x1={0} x2={pit.length} y1={100} y2={100} />
      <line className="scale-right" x1={0} x2={pit.length} y1={right} y2={right} />
    </svg>
  )
}

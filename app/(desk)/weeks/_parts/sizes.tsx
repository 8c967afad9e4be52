import { Section } from '#app/_ui/section.tsx'
import { DataTable } from '#app/_ui/table.tsx'
import type { HousingType } from '#lib/domain/housing.ts'
import type { SizeShown } from '#lib/service/weeks-view.ts'
import { perCent } from '#lib/words/chance.ts'
import { weekdayDate } from '#lib/words/dates.ts'
import { sizeWords, WEEKS, WEEKS_HEADS } from '#lib/words/weeks.ts'

type Props = { readonly sizes: readonly SizeShown[]; readonly housing: HousingType }

/** Each size and everything larger against the animals that need it. */
export function Sizes({ sizes, housing }: Props) {
  if (sizes.length < 2) return null
  return (
    <Section id="sizes" head={WEEKS.sizes} note={WEEKS.sizesNote}>
      <DataTable
        caption={WEEKS.sizes}
        hideCaption
        rows={sizes}
        keyOf={row => String(row.size)}
        columns={[
          { key: 'size', head: WEEKS_HEADS.size, isRowHead: true, cell: row => sizeWords(row.size, housing) },
          { key: 'tonight', head: WEEKS_HEADS.tonight, right: true, cell: row => row.tonight },
          { key: 'day', head: WEEKS_HEADS.worstDay, right: true, cell: row => weekdayDate(row.worst.day) },
          { key: 'worst', head: WEEKS_HEADS.worst, right: true, cell: row => perCent(row.worst.chance) },
        ]}
      />
    </Section>
  )
}

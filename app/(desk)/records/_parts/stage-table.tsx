import { type Column, DataTable } from '#app/_ui/table.tsx'
import type { DayNumber } from '#lib/domain/day.ts'
import type { StageSaid } from '#lib/service/records.ts'
import { paths } from '#lib/web/paths.ts'
import { leanWords, RECORDS, timesShort, timesSpan } from '#lib/words/records.ts'
import { planWords, stageName } from './names.ts'

type Props = {
  readonly caption: string
  readonly stages: readonly StageSaid[]
  readonly earlierAsOf: DayNumber | null
  /** Stages of several conditions: each row names its own. */
  readonly isMixed?: boolean
}

/** What is said of each stage, a row a stage. */
export function StageTable({ caption, stages, earlierAsOf, isMixed = false }: Props) {
  const before: Column<StageSaid> = {
    key: 'before',
    head: RECORDS.before,
    right: true,
    cell: ({ earlier }) => (earlier === null ? '' : timesShort(earlier.mean)),
  }
  return (
    <DataTable
      caption={caption}
      hideCaption
      rows={stages}
      keyOf={({ key }) => key}
      columns={[
        {
          key: 'stage',
          head: RECORDS.stage,
          isRowHead: true,
          cell: stage => <a href={paths.recordsOf(stage.key)}>{stageName(stage)}</a>,
        },
        { key: 'plan', head: RECORDS.plan, cell: stage => planWords(stage, isMixed) },
        { key: 'animals', head: RECORDS.animals, right: true, cell: ({ animals }) => String(animals) },
        { key: 'times', head: RECORDS.times, right: true, cell: ({ stretch }) => timesShort(stretch.mean) },
        { key: 'within', head: RECORDS.within, right: true, cell: ({ stretch }) => timesSpan(stretch) },
        { key: 'lean', head: RECORDS.lean, right: true, cell: ({ lean }) => leanWords(lean) },
        ...(earlierAsOf === null ? [] : [before]),
      ]}
    />
  )
}

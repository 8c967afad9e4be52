import { Section } from '#app/_ui/section.tsx'
import { AsTable, type Column, DataTable } from '#app/_ui/table.tsx'
import type { CasualtyCard } from '#lib/service/casualty.ts'
import { housingWords, stageWords } from '#lib/words/care.ts'
import { endsOfStage, exitTimesOfStage, lengthOfStage, PLAN, versionWords } from '#lib/words/casualty-plan.ts'
import { markWords } from '#lib/words/mark.ts'

type Version = CasualtyCard['plans'][number]
type Stage = Version['stages'][number]

/** The plan as it stands, every number with its source beside it; older versions stay readable below. */
export function Plan({ card }: { readonly card: CasualtyCard }) {
  const { plans, zone } = card
  const [newest, ...older] = [...plans].reverse()
  if (newest === undefined) return null
  return (
    <Section id="plan" head={PLAN.head} note={PLAN.note}>
      <p className="plan-version">{versionWords(newest, zone)}</p>
      <Stages version={newest} />
      {older.map(version => (
        <AsTable key={version.versionNo} label={PLAN.older(version.versionNo)}>
          <p className="plan-version">{versionWords(version, zone)}</p>
          <Stages version={version} />
        </AsTable>
      ))}
    </Section>
  )
}

function Stages({ version }: { readonly version: Version }) {
  return (
    <DataTable
      caption={PLAN.caption(version.versionNo)}
      hideCaption
      rows={version.stages}
      keyOf={stage => String(stage.no)}
      columns={COLUMNS}
    />
  )
}

const withMark = (words: string, mark: string | null) => (
  <>
    {words} <small>({markWords(mark)})</small>
  </>
)

const COLUMNS: readonly Column<Stage>[] = [
  {
    key: 'stage',
    head: PLAN.stage,
    isRowHead: true,
    cell: ({ stage, housing }) => `${stageWords(stage)}, ${housingWords(housing)}`,
  },
  {
    key: 'length',
    head: PLAN.length,
    cell: one => withMark(lengthOfStage(one.estimate, one.waitsFor), one.lengthsMark),
  },
  { key: 'ends', head: PLAN.ends, cell: one => withMark(endsOfStage(one.estimate), one.sharesMark) },
  {
    key: 'when',
    head: PLAN.when,
    cell: one => withMark(exitTimesOfStage(one.estimate), one.exitTimesMark),
  },
]

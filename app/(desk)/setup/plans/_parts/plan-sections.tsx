import { EmptyState } from '#app/_ui/notice.tsx'
import { Facts, Section } from '#app/_ui/section.tsx'
import { DataTable } from '#app/_ui/table.tsx'
import type { StageValues } from '#lib/domain/care-plan-form.ts'
import { barWords, checkerWords, checkName, housingWords, stageMeans, stageWords } from '#lib/words/care.ts'
import { markWords } from '#lib/words/mark.ts'
import {
  dueWords,
  endsWords,
  exitTimesWords,
  lengthWords,
  minutesWords,
  PLAN_PAGE,
  withMark,
} from '#lib/words/setup-plan.ts'
import type { PlanDetail } from './plan-detail.ts'

type Links = {
  readonly mayChange: boolean
  readonly hrefOf: (query: Readonly<Record<string, string>>) => string
}

/** Every stage with its numbers, each beside where it comes from. */
export function PlanStages({ plan, mayChange, hrefOf }: { readonly plan: PlanDetail } & Links) {
  return (
    <Section id="stages" head={PLAN_PAGE.stages} note={PLAN_PAGE.stagesNote} strong>
      {plan.stages.length === 0 && (
        <EmptyState sentence={PLAN_PAGE.noStages} coming={PLAN_PAGE.noStagesComing} />
      )}
      <ol className="plan-stages">
        {plan.stages.map(stage => (
          <li key={stage.stage}>
            <h3>
              {stageWords(stage.stage)}
              <small>{stageMeans(stage.stage)}</small>
            </h3>
            <Facts facts={factsOf(stage)} />
            {mayChange && (
              <a className="btn plain" href={hrefOf({ stage: stage.stage })}>
                {PLAN_PAGE.change} <span className="vh">{stageWords(stage.stage)}</span>
              </a>
            )}
          </li>
        ))}
      </ol>
      {mayChange && (
        <a className="btn" href={hrefOf({ stage: 'new' })}>
          {PLAN_PAGE.addStage}
        </a>
      )}
    </Section>
  )
}

/** The checks of the plan in the order of its stages. */
export function PlanGates({ plan, mayChange, hrefOf }: { readonly plan: PlanDetail } & Links) {
  return (
    <Section id="gates" head={PLAN_PAGE.gates} note={PLAN_PAGE.gatesNote}>
      {plan.gates.length === 0 ? (
        <EmptyState sentence={PLAN_PAGE.noGates} coming={PLAN_PAGE.noGatesComing} />
      ) : (
        <DataTable
          caption={PLAN_PAGE.gates}
          hideCaption
          rows={plan.gates}
          keyOf={gate => String(gate.id)}
          columns={[
            {
              key: 'check',
              head: PLAN_PAGE.check,
              isRowHead: true,
              cell: gate =>
                mayChange ? (
                  <a href={hrefOf({ gate: String(gate.id) })}>{checkName(gate.check)}</a>
                ) : (
                  checkName(gate.check)
                ),
            },
            { key: 'stage', head: PLAN_PAGE.stages, cell: gate => stageWords(gate.stage) },
            { key: 'what', head: PLAN_PAGE.what, cell: gate => gate.what },
            { key: 'due', head: PLAN_PAGE.due, cell: gate => dueWords(gate) },
            { key: 'needed', head: PLAN_PAGE.needed, cell: gate => barWords(gate.requiredFor) },
            { key: 'who', head: PLAN_PAGE.who, cell: gate => checkerWords(gate.who) },
            { key: 'source', head: PLAN_PAGE.source, cell: gate => markWords(gate.mark) },
          ]}
        />
      )}
      {mayChange && plan.stages.length > 0 && (
        <p className="list-do below">
          <a className="btn" href={hrefOf({ gate: 'new' })}>
            {PLAN_PAGE.addGate}
          </a>
        </p>
      )}
    </Section>
  )
}

function factsOf(stage: StageValues) {
  const note = stage.note === null ? [] : [{ term: PLAN_PAGE.note, value: stage.note }]
  const size =
    stage.sizeNote === null ? [] : [{ term: PLAN_PAGE.size, value: withMark(stage.sizeNote, stage.sizeMark) }]
  return [
    { term: PLAN_PAGE.housing, value: housingWords(stage.housing) },
    ...size,
    { term: PLAN_PAGE.length, value: withMark(lengthWords(stage), stage.lengthsMark) },
    { term: PLAN_PAGE.ends, value: withMark(endsWords(stage), stage.sharesMark) },
    { term: PLAN_PAGE.whenEnds, value: withMark(exitTimesWords(stage), stage.exitTimesMark) },
    {
      term: PLAN_PAGE.minutes,
      value: withMark(minutesWords(stage.carerMinutesPerDay), stage.minutesMark),
    },
    ...note,
  ]
}

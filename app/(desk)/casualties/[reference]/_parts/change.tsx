import type { ReactNode } from 'react'
import { Section } from '#app/_ui/section.tsx'
import { Act } from '#app/(desk)/casualties/_parts/act.tsx'
import type { FieldSpec } from '#app/(desk)/casualties/_parts/field-spec.ts'
import { ALIVE_ANSWERS, WHERE_NOW } from '#lib/domain/outcome.ts'
import type { CasualtyCard } from '#lib/service/casualty.ts'
import { paths } from '#lib/web/paths.ts'
import { CARD } from '#lib/words/casualty.ts'
import {
  CHANGE,
  judgedFor,
  NOT_TOLD_APART,
  oneOfWords,
  openBefore,
  reviseLegend,
  someOfWords,
} from '#lib/words/casualty-change.ts'
import { cautionWords, VET_DECIDES } from '#lib/words/caution.ts'
import { aliveWords, OUTCOME_QUESTIONS, whereNowWords } from '#lib/words/outcome.ts'
import {
  arrived,
  booked,
  ended,
  handedOver,
  moved,
  oneOfBatchEnded,
  revised,
  someOfBatchMoved,
} from '../../actions.ts'
import { hiddenOf, placeFields, whenFields } from './act-fields.ts'
import { gateLines } from './gate-lines.ts'
import { GroupActs, whichPlaces } from './group.tsx'
import { VetSays } from './vet-word.tsx'

type Props = {
  readonly card: CasualtyCard
  readonly isChoosingCentre: boolean
  /** When it is thought to have left, by whoever came here to say so. */
  readonly left: string | undefined
}

/** Where it goes, with whom it is, how long it will take, how it ended. */
export function Change({ card, isChoosingCentre, left }: Props) {
  const { can, now } = card
  const isOpen = now.keeper !== 'nobody'
  if (!can.record && !can.revise && !can.outcome) return null
  return (
    <Section id="change" head={CARD.change} note={VET_DECIDES}>
      {isOpen ? (
        <div className="acts">
          {can.record && <Goes card={card} isChoosingCentre={isChoosingCentre} left={left} />}
          {can.record && card.batch.length > 1 && now.keeper === 'centre' && <SomeOfBatch card={card} />}
          {can.record && now.keeper === 'centre' && <GroupActs card={card} />}
          {can.record && <HandOver card={card} />}
          {can.record && now.keeper === 'centre' && <Book card={card} />}
          {can.revise && <Revise card={card} />}
          {can.revise && <VetSays card={card} />}
          {can.outcome && <End card={card} />}
          {can.outcome && card.batch.length > 1 && <OneOfBatch card={card} />}
        </div>
      ) : (
        <p>{CARD.closedChange}</p>
      )}
    </Section>
  )
}

/** Arrived, or moved: the same list of enclosures; other centres by links. */
function Goes({ card, isChoosingCentre, left }: Props): ReactNode {
  const { places, now } = card
  if (places === undefined) return null
  const isMove = now.keeper === 'centre'
  const { centreId, centre, centres, stage } = places
  return (
    <>
      {centreId !== null && (
        <Act
          id="move"
          key={centreId}
          action={isMove ? moved : arrived}
          title={isMove ? CHANGE.move : CHANGE.arrived}
          submit={CHANGE.record}
          isOpen={isChoosingCentre}
          hidden={{ ...hiddenOf(card), centreId: String(centreId) }}
          notes={[judgedFor(stage, centre)]}
          fields={[...placeFields(card), ...whenFields('since', left)]}
        />
      )}
      <details className="act" id="centres" open={centreId === null}>
        <summary className="btn plain">{CHANGE.otherCentre}</summary>
        <ul className="who-kinds">
          {centres.map(({ id, name }) => (
            <li key={id}>
              <a
                href={`${paths.casualty(card.head.reference, { to: id })}#move`}
                aria-current={id === centreId ? 'true' : undefined}
              >
                {name}
              </a>
            </li>
          ))}
        </ul>
      </details>
    </>
  )
}

/** By count: which of them they are is said later, on their cards. */
function SomeOfBatch({ card }: { readonly card: CasualtyCard }) {
  const centreId = card.places?.centreId
  if (centreId == null) return null
  return (
    <Act
      id="some-of-batch"
      action={someOfBatchMoved}
      title={someOfWords(card.batch.length)}
      submit={CHANGE.record}
      hidden={{ ...hiddenOf(card), centreId: String(centreId) }}
      fields={[
        { kind: 'number', name: 'count', label: CHANGE.howMany, unit: CHANGE.animals },
        ...whichPlaces(card),
        ...placeFields(card),
        ...whenFields('since'),
      ]}
    />
  )
}

function HandOver({ card }: { readonly card: CasualtyCard }) {
  const { practices, drivers } = card.others
  const options = [
    { value: 'finder', text: CHANGE.finder },
    ...practices.map(one => ({ value: `practice:${one.id}`, text: one.name, group: CHANGE.practices })),
    ...drivers.map(one => ({ value: `driver:${one.id}`, text: one.name, group: CHANGE.drivers })),
  ]
  return (
    <Act
      id="hand-over"
      action={handedOver}
      title={CHANGE.handOver}
      submit={CHANGE.record}
      hidden={hiddenOf(card)}
      fields={[
        { kind: 'select', name: 'keeper', label: CHANGE.handOverTo, options, none: CHANGE.choose },
        ...whenFields('since'),
      ]}
    />
  )
}

function Book({ card }: { readonly card: CasualtyCard }) {
  return (
    <Act
      id="book"
      action={booked}
      title={CHANGE.booked}
      submit={CHANGE.record}
      hidden={hiddenOf(card)}
      fields={[{ kind: 'time', name: 'leavesAt', label: CHANGE.leavesAt, hint: CHANGE.leavesHint }]}
    />
  )
}

function Revise({ card }: { readonly card: CasualtyCard }) {
  const { plan, stageNow } = card
  const from = stageNow?.stage.no ?? 1
  const stages = (plan?.stages ?? []).flatMap(one => {
    const { ready } = one.estimate
    return one.no >= from && ready.kind === 'length' ? [{ ...one, length: ready.length }] : []
  })
  if (stages.length === 0) return null
  const hidden = Object.fromEntries(
    stages.flatMap(({ no, length }, at) => [
      [`stages.${at}.stageNo`, String(no)],
      [`stages.${at}.wasMedian`, String(length.medianDays)],
      [`stages.${at}.wasP90`, String(length.p90Days)],
    ]),
  )
  const rows = stages.map(({ no, stage, length }, at): FieldSpec => {
    const days = (name: string, label: string, start: number): FieldSpec => ({
      kind: 'number',
      name: `stages.${at}.${name}`,
      label,
      unit: CHANGE.days,
      start: String(start),
    })
    return {
      kind: 'two',
      name: `stages.${at}`,
      legend: reviseLegend(stage, no === from),
      fields: [
        days('medianDays', CHANGE.median, length.medianDays),
        days('p90Days', CHANGE.p90, length.p90Days),
      ],
    }
  })
  return (
    <Act
      id="revise"
      action={revised}
      title={CHANGE.revise}
      submit={CHANGE.record}
      hidden={{ ...hiddenOf(card), ...hidden }}
      fields={[...rows, { kind: 'text', name: 'because', label: CHANGE.because, hint: CHANGE.becauseHint }]}
    />
  )
}

/** The count is right at once; which one it was can be said later. */
function OneOfBatch({ card }: { readonly card: CasualtyCard }) {
  const choices = WHERE_NOW.dead.map(value => ({ value, label: whereNowWords(value) }))
  return (
    <Act
      id="one-of-batch"
      action={oneOfBatchEnded}
      title={oneOfWords(card.batch.length)}
      submit={CHANGE.record}
      hidden={{ ...hiddenOf(card), alive: 'dead' }}
      notes={[NOT_TOLD_APART]}
      fields={[
        {
          kind: 'one',
          name: 'whereNow',
          label: OUTCOME_QUESTIONS.how,
          columns: 2,
          start: 'died by itself',
          choices,
        },
        ...whenFields('since'),
      ]}
    />
  )
}

function End({ card }: { readonly card: CasualtyCard }) {
  const open = gateLines(card).filter(line => line.isOpen).length
  const cautions = [...card.cautions.outcome, ...card.cautions.release].map(caution => {
    const { head, say, mark } = cautionWords(caution)
    return `${head}. ${say} (${mark})`
  })
  const where = ALIVE_ANSWERS.flatMap(alive => WHERE_NOW[alive]).filter(one => one !== 'with us')
  return (
    <Act
      id="outcome"
      action={ended}
      title={CHANGE.outcome}
      submit={CHANGE.record}
      hidden={hiddenOf(card)}
      notes={[...(open > 0 ? [openBefore(open)] : []), ...new Set(cautions)]}
      fields={[
        {
          kind: 'one',
          name: 'alive',
          label: OUTCOME_QUESTIONS.alive,
          columns: 'row',
          choices: ALIVE_ANSWERS.map(value => ({ value, label: aliveWords(value) })),
        },
        {
          kind: 'one',
          name: 'whereNow',
          label: OUTCOME_QUESTIONS.whereNow,
          columns: 2,
          choices: where.map(value => ({ value, label: whereNowWords(value) })),
        },
        ...whenFields('since'),
      ]}
    />
  )
}

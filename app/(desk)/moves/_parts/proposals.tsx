import { z } from 'zod'
import { CostTerms } from '#app/_ui/cost/cost-terms.tsx'
import { EmptyState } from '#app/_ui/notice.tsx'
import { Section } from '#app/_ui/section.tsx'
import { Act } from '#app/(desk)/casualties/_parts/act.tsx'
import { ASIDE_REASONS } from '#lib/domain/move-aside.ts'
import { localDateTimeText } from '#lib/domain/text.ts'
import type { ProposedMove } from '#lib/service/move-proposal.ts'
import { paths } from '#lib/web/paths.ts'
import { ASIDE, asideReasonWords } from '#lib/words/move-aside.ts'
import { proposalBecause, proposalHead, TRANSFER, wayHead } from '#lib/words/transfer.ts'
import { proposed, setAside } from '../actions.ts'

/** So many stand open; the rest unfold. */
const FIRST = 3

type Props = {
  readonly moves: readonly ProposedMove[]
  /** Whether others are set aside. */
  readonly hasAside: boolean
  readonly mayArrange: boolean
  readonly expectedAt: Date
  readonly zone: string
}

/** The moves that gain most, each with why, and both bills to compare. */
export function Proposals({ moves, hasAside, mayArrange, expectedAt, zone }: Props) {
  const start = z.encode(localDateTimeText(zone), expectedAt)
  const rest = moves.slice(FIRST)
  const one = (move: ProposedMove) => (
    <Proposal key={move.casualtyId} move={move} mayArrange={mayArrange} start={start} />
  )
  return (
    <Section id="proposals" head={TRANSFER.proposalsHead} note={TRANSFER.proposalsNote} strong>
      {moves.length === 0 && (
        <EmptyState
          sentence={hasAside ? TRANSFER.allAside : TRANSFER.noProposals}
          coming={TRANSFER.noProposalsComing}
        />
      )}
      {moves.slice(0, FIRST).map(one)}
      {rest.length > 0 && (
        <details className="astable">
          <summary>
            {rest.length} {TRANSFER.more}
          </summary>
          <div className="inner">{rest.map(one)}</div>
        </details>
      )}
    </Section>
  )
}

type OneProps = { readonly move: ProposedMove; readonly mayArrange: boolean; readonly start: string }

function Proposal({ move, mayArrange, start }: OneProps) {
  const { stay, move: moving } = move.bills
  return (
    <article className="proposal">
      <h3>
        <a href={paths.casualty(move.reference)}>{proposalHead(move)}</a>
      </h3>
      <p>{proposalBecause(move)}</p>
      <details className="astable">
        <summary>{TRANSFER.compare}</summary>
        <div className="inner">
          <h4>{wayHead('stay', stay.centre)}</h4>
          <CostTerms terms={stay.terms} />
          <h4>{wayHead('move', moving.centre)}</h4>
          <CostTerms terms={moving.terms} />
        </div>
      </details>
      {move.isOffered && <p>{TRANSFER.offered}</p>}
      {mayArrange && (
        <Act
          id={`propose-${move.casualtyId}`}
          action={proposed}
          title={TRANSFER.proposeTitle}
          submit={move.isOffered ? TRANSFER.agree : TRANSFER.propose}
          hidden={{ casualtyId: String(move.casualtyId), toCentreId: String(move.to.id) }}
          fields={[
            { kind: 'time', name: 'expectedAt', label: TRANSFER.when, hint: TRANSFER.whenHint, start },
          ]}
        />
      )}
      {mayArrange && <NotThisOne move={move} />}
    </article>
  )
}

function NotThisOne({ move }: { readonly move: ProposedMove }) {
  return (
    <Act
      id={`aside-${move.casualtyId}`}
      action={setAside}
      title={ASIDE.title}
      submit={ASIDE.submit}
      hidden={{ casualtyId: String(move.casualtyId), toCentreId: String(move.to.id) }}
      fields={[
        {
          kind: 'select',
          name: 'reason',
          label: ASIDE.reason,
          none: ASIDE.choose,
          options: ASIDE_REASONS.map(value => ({ value, text: asideReasonWords(value) })),
        },
        { kind: 'text', name: 'words', label: ASIDE.words, hint: ASIDE.wordsHint },
        { kind: 'date', name: 'untilOn', label: ASIDE.until, hint: ASIDE.untilHint },
      ]}
    />
  )
}

import { ButtonLink } from '#app/_ui/button.tsx'
import { EmptyState } from '#app/_ui/notice.tsx'
import { Section } from '#app/_ui/section.tsx'
import { DataTable } from '#app/_ui/table.tsx'
import { OneButton } from '#app/(desk)/calls/_parts/one-button.tsx'
import type { TransferView } from '#lib/service/transfer.ts'
import { paths } from '#lib/web/paths.ts'
import { TRANSFER, transferReasonWords, transferStateWords } from '#lib/words/transfer.ts'
import { cancelled } from '../actions.ts'

type Props = {
  readonly transfers: readonly TransferView[]
  readonly mayArrange: boolean
  readonly now: Date
  readonly zone: string
}

/** The moves that were proposed, how each stands, and the next step. */
export function Transfers({ transfers, mayArrange, now, zone }: Props) {
  return (
    <Section id="transfers" head={TRANSFER.underWayHead} note={TRANSFER.underWayNote}>
      {transfers.length === 0 ? (
        <EmptyState sentence={TRANSFER.none} coming={TRANSFER.noneComing} />
      ) : (
        <DataTable
          caption={TRANSFER.underWayHead}
          hideCaption
          rows={transfers}
          keyOf={one => String(one.id)}
          columns={[
            {
              key: 'animal',
              head: TRANSFER.animal,
              isRowHead: true,
              cell: one => (
                <a href={paths.casualty(one.reference)}>
                  {one.reference}, {one.species}
                </a>
              ),
            },
            {
              key: 'where',
              head: TRANSFER.where,
              cell: one => `${one.from} to ${one.to}; ${transferReasonWords(one.reason)}`,
            },
            { key: 'state', head: TRANSFER.state, cell: one => transferStateWords(one, now, zone) },
            {
              key: 'do',
              head: TRANSFER.todo,
              phoneLabel: '',
              cell: one => <Todo one={one} mayArrange={mayArrange} />,
            },
          ]}
        />
      )}
    </Section>
  )
}

function Todo({ one, mayArrange }: { readonly one: TransferView; readonly mayArrange: boolean }) {
  const isWaiting = one.state === 'proposed' || one.state === 'agreed'
  return (
    <div className="leg-acts">
      {one.state === 'proposed' && one.askId !== null && (
        <ButtonLink href={paths.ask(one.askId)}>{TRANSFER.openAsk}</ButtonLink>
      )}
      {one.journeyId !== null && (
        <ButtonLink href={paths.journey(one.journeyId)}>{TRANSFER.openJourney}</ButtonLink>
      )}
      {mayArrange && one.state === 'agreed' && one.journeyId === null && (
        <ButtonLink href={paths.planMove(one.reference)}>{TRANSFER.plan}</ButtonLink>
      )}
      {mayArrange && isWaiting && (
        <OneButton
          action={cancelled}
          weight="plain"
          text={TRANSFER.cancel}
          fields={{ transferId: String(one.id) }}
        />
      )}
    </div>
  )
}

import { EmptyState } from '#app/_ui/notice.tsx'
import { DataTable } from '#app/_ui/table.tsx'
import type { AskLine } from '#lib/service/ask.ts'
import { paths } from '#lib/web/paths.ts'
import { ASK, answeredWords, placeRanOut, shownWords, waitsWords } from '#lib/words/ask.ts'

type Clock = { readonly now: Date; readonly zone: string }

type Props = {
  readonly asks: readonly AskLine[]
  readonly caption: string
  /** A page about one animal leaves out which. */
  readonly isAboutOne?: boolean
  readonly empty: { readonly sentence: string; readonly coming: string }
} & Clock

/** Asks as a list of calls to make: whom, under which number, about what, until when. */
export function AskLines({ asks, caption, isAboutOne = false, empty, now, zone }: Props) {
  if (asks.length === 0) return <EmptyState sentence={empty.sentence} coming={empty.coming} />
  return (
    <DataTable
      caption={caption}
      hideCaption
      rows={asks}
      keyOf={ask => String(ask.id)}
      columns={[
        {
          key: 'who',
          head: ASK.who,
          isRowHead: true,
          cell: ask => <a href={paths.ask(ask.id)}>{ask.to.name}</a>,
        },
        { key: 'ring', head: ASK.ring, cell: ask => <Ring ask={ask} /> },
        ...(isAboutOne
          ? []
          : [
              {
                key: 'about',
                head: ASK.about,
                cell: (ask: AskLine) => (
                  <>
                    <a href={paths.casualty(ask.reference)}>{ask.reference}</a>, {ask.species}
                    {ask.animals > 1 && ` and ${ask.animals - 1} more`}
                  </>
                ),
              },
            ]),
        { key: 'stands', head: ASK.standing, cell: ask => <Standing ask={ask} now={now} zone={zone} /> },
      ]}
    />
  )
}

/** Who is to be rung now. */
function Ring({ ask }: { readonly ask: AskLine }) {
  const last = ask.tries.at(-1)
  const { name, phone } = last ?? ask.to
  if (ask.state !== 'put') return <>{last?.name ?? ''}</>
  return (
    <>
      {name !== ask.to.name && `${name}, `}
      <a href={`tel:${phone.replaceAll(' ', '')}`}>{phone}</a>
    </>
  )
}

/** How it stands, and until when it waits. */
export function Standing({ ask, now, zone }: { readonly ask: AskLine } & Clock) {
  if (ask.state === 'put') {
    return (
      <>
        <b>{shownWords(ask.shown)}</b>
        {ask.lapsesAt !== null && `, ${waitsWords(ask.lapsesAt, now, zone)}`}
      </>
    )
  }
  return (
    <>
      {answeredWords({ ...ask, by: ask.answeredBy, at: ask.answeredAt }, zone)}
      {ask.state === 'unanswered' && ask.to.kind === 'centre' && (
        <span className="sub">{placeRanOut(ask.to.name)}</span>
      )}
    </>
  )
}

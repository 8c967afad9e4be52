import { EmptyState } from '#app/_ui/notice.tsx'
import { Section } from '#app/_ui/section.tsx'
import { DataTable } from '#app/_ui/table.tsx'
import type { Way } from '#lib/domain/companion.ts'
import type { CasualtyCard } from '#lib/service/casualty.ts'
import { paths } from '#lib/web/paths.ts'
import { ageApartWords, COMPANION, farWords, wayWords } from '#lib/words/companion.ts'

type Found = NonNullable<CasualtyCard['companions']>['found'][number]

/** Who could keep a lone young animal company: each moved in against this one moved out. */
export function Companions({ card }: { readonly card: CasualtyCard }) {
  const { companions } = card
  if (companions === undefined) return null
  const { found, isApart } = companions
  return (
    <Section id="companion" head={COMPANION.head} note={COMPANION.note}>
      {found.length === 0 ? (
        <EmptyState
          sentence={isApart ? COMPANION.apart : COMPANION.nobody}
          coming={isApart ? COMPANION.apartNext : COMPANION.nobodyNext}
        />
      ) : (
        <DataTable
          caption={COMPANION.head}
          hideCaption
          rows={found}
          keyOf={one => one.animal.reference}
          columns={[
            {
              key: 'who',
              head: COMPANION.who,
              isRowHead: true,
              cell: one => (
                <>
                  <a href={paths.casualty(one.animal.reference)}>{one.animal.reference}</a>, {one.speciesName}
                </>
              ),
            },
            { key: 'where', head: COMPANION.where, cell: one => one.centre },
            { key: 'far', head: COMPANION.far, cell: one => farWords(one.km) },
            { key: 'age', head: COMPANION.age, cell: one => ageApartWords(one.daysApart) },
            {
              key: 'in',
              head: COMPANION.wayIn,
              cell: one => <Move card={card} one={one} way={one.ways[0]} />,
            },
            {
              key: 'out',
              head: COMPANION.out,
              cell: one => <Move card={card} one={one} way={one.ways[1]} />,
            },
          ]}
        />
      )}
    </Section>
  )
}

/** What speaks for and against a way, and the card on which that move is recorded. */
function Move({ card, one, way }: { readonly card: CasualtyCard; readonly one: Found; readonly way: Way }) {
  const words = wayWords(way, one.better)
  if (!card.can.record || !way.hasRoom) return words
  const href =
    way.kind === 'in'
      ? paths.casualty(one.animal.reference, { to: card.now.centreId ?? undefined })
      : paths.casualty(card.head.reference, { to: one.animal.centreId })
  return <a href={`${href}#move`}>{words}</a>
}

import { EmptyState } from '#app/_ui/notice.tsx'
import { Section } from '#app/_ui/section.tsx'
import { DataTable } from '#app/_ui/table.tsx'
import type { JourneyView } from '#lib/service/road.ts'
import { paths } from '#lib/web/paths.ts'
import { driverWords, journeyBasis, legPath, legStateWords, MOVES, travellersWords } from '#lib/words/road.ts'

type Props = { readonly journeys: readonly JourneyView[]; readonly now: Date; readonly zone: string }

/** The journeys that run, each with its legs. */
export function OnTheRoad({ journeys, now, zone }: Props) {
  return (
    <Section id="road" head={MOVES.roadHead} note={MOVES.roadNote} strong>
      {journeys.length === 0 ? (
        <EmptyState sentence={MOVES.noJourneys} coming={MOVES.noJourneysComing} />
      ) : (
        <DataTable
          caption={MOVES.roadHead}
          hideCaption
          rows={journeys}
          keyOf={journey => String(journey.id)}
          columns={[
            {
              key: 'who',
              head: MOVES.journey,
              isRowHead: true,
              cell: journey => <a href={paths.journey(journey.id)}>{travellersWords(journey)}</a>,
            },
            {
              key: 'where',
              head: MOVES.where,
              cell: journey => [journey.from, journey.to].filter(Boolean).join(' to '),
            },
            { key: 'state', head: MOVES.state, cell: journey => journeyBasis(journey) },
            {
              key: 'legs',
              head: MOVES.legs,
              cell: journey => (
                <ol className="shown">
                  {journey.legs
                    .filter(({ state }) => state !== 'called-off')
                    .map(leg => (
                      <li key={leg.id}>
                        {driverWords(leg)}, {legPath(leg)}: {legStateWords(leg, now, zone)}
                      </li>
                    ))}
                </ol>
              ),
            },
          ]}
        />
      )}
    </Section>
  )
}

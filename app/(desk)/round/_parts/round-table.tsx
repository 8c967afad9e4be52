import { Section } from '#app/_ui/section.tsx'
import { DataTable } from '#app/_ui/table.tsx'
import type { Round, RoundEnclosure, RoundRoom } from '#lib/service/round.ts'
import { paths } from '#lib/web/paths.ts'
import { dryingWords, freeNote, heldWords, nameRuns, ROUND, shutWords } from '#lib/words/round.ts'
import { shortWords } from '#lib/words/who-is-where.ts'
import { untilOf } from './places.ts'

type Props = { readonly round: Round; readonly now: Date }
type Row = RoundEnclosure & { readonly room: string }

/** The round without its drawing: every enclosure in use in walking order, then the free ones by room. */
export function RoundTable({ round, now }: Props) {
  const rows = round.rooms.flatMap(room =>
    room.enclosures.filter(isInUse).map(one => ({ ...one, room: room.name })),
  )
  return (
    <>
      <Section id="table" head={ROUND.table} note={ROUND.tableNote} strong>
        <div className="wide-on-paper round-table">
          <DataTable
            caption={ROUND.table}
            hideCaption
            rows={rows}
            keyOf={row => String(row.id)}
            columns={[
              { key: 'enclosure', head: ROUND.enclosure, isRowHead: true, cell: row => row.name },
              { key: 'room', head: ROUND.room, cell: row => row.room },
              { key: 'who', head: ROUND.who, cell: row => <Inside row={row} zone={round.zone} /> },
              {
                key: 'expected',
                head: ROUND.expected,
                cell: row => <Held row={row} round={round} now={now} />,
              },
              { key: 'state', head: ROUND.state, cell: row => stateOf(row, round.zone) },
            ]}
          />
        </div>
      </Section>
      <Section id="free" head={ROUND.free}>
        <dl className="facts">
          {round.rooms.map(room => (
            <FreeRow key={room.id} room={room} />
          ))}
        </dl>
      </Section>
    </>
  )
}

function isInUse(one: RoundEnclosure): boolean {
  return one.inside.length > 0 || one.held.length > 0 || one.closed !== null || one.dryUntil !== null
}

function Inside({ row, zone }: { readonly row: Row; readonly zone: string }) {
  if (row.inside.length === 0) return null
  return (
    <ul>
      {row.inside.map(animal => (
        <li key={animal.id}>
          <a href={paths.casualty(animal.reference)}>
            {animal.species} <span className="ref">{animal.reference}</span>
          </a>
          , {untilOf(animal, zone)}
          {animal.isAlone && `, ${ROUND.alone}`}
          {animal.short !== null && <b className="grave">, {shortWords(animal.short)}</b>}
        </li>
      ))}
    </ul>
  )
}

function Held({ row, round, now }: { readonly row: Row } & Props) {
  if (row.held.length === 0) return null
  return (
    <ul>
      {row.held.map(hold => (
        <li key={`${hold.reference} ${hold.startsAt.getTime()}`}>
          {hold.reference !== null && (
            <a href={paths.casualty(hold.reference)}>
              {hold.species} <span className="ref">{hold.reference}</span>
            </a>
          )}{' '}
          {heldWords(hold.expectedAt, hold.startsAt, now, round.zone)}
        </li>
      ))}
    </ul>
  )
}

function stateOf(row: Row, zone: string): string {
  if (row.closed !== null) return shutWords(row.closed.reason, row.closed.until, zone)
  if (row.dryUntil !== null) return dryingWords(row.dryUntil, zone)
  return row.free === 0 ? '' : `${ROUND.free} ${freeNote(row.free, false) ?? ''}`
}

function FreeRow({ room }: { readonly room: RoundRoom }) {
  const free = room.enclosures.filter(one => !isInUse(one)).map(one => one.name)
  if (free.length === 0) return null
  return (
    <div>
      <dt>{room.name}</dt>
      <dd>{nameRuns(free)}</dd>
    </div>
  )
}

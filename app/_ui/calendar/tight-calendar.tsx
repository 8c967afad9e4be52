import { type DayNumber, weekdayOf } from '#lib/domain/day.ts'
import { longDate, shortDate, WEEKDAY_HEADS } from '#lib/words/dates.ts'
import { CALENDAR_WORDS, noteHead, shortWords, weekWords } from '#lib/words/fan.ts'
import { type CalendarCell, weeksOf } from './geometry.ts'

export type CalendarNote = {
  /** Any day of the week it is about. */
  readonly day: DayNumber
  readonly text: string
}
export type TightCalendarProps = {
  readonly todayDay: DayNumber
  /** The chance of being short, today and each day after it. */
  readonly shortByDay: readonly number[]
  /** From which chance a day is tight (the network's policy). */
  readonly tightFrom: number
  readonly notes: readonly CalendarNote[]
}

/** From here a day's chance is drawn and written; from `SEVERE` its hatch is the gravest. */
const WRITTEN_FROM = 0.1
const SEVERE = 0.35

/** Weeks down, days across; a quiet day is just its date, tight days share an outline. */
export function TightCalendar({ todayDay, shortByDay, tightFrom, notes }: TightCalendarProps) {
  const weeks = weeksOf(todayDay, shortByDay, tightFrom)
  const notesOf = (monday: DayNumber) => notes.filter(({ day }) => day >= monday && day < monday + 7)
  return (
    <div className="cal-wrap">
      <table className="cal">
        <caption className="vh">{CALENDAR_WORDS.caption}</caption>
        <thead>
          <tr>
            <th scope="col">
              <span className="vh">{CALENDAR_WORDS.week}</span>
            </th>
            {WEEKDAY_HEADS.map(name => (
              <th key={name} scope="col">
                {name}
              </th>
            ))}
            <th scope="col" className="why">
              {CALENDAR_WORDS.why}
            </th>
          </tr>
        </thead>
        <tbody>
          {weeks.map(({ monday, cells }, i) => (
            <tr key={monday}>
              <th scope="row">
                <span className="vh">{weekWords(monday)}</span>
              </th>
              {cells.map((cell, j) => (
                <Cell key={cell.day} cell={cell} isNamed={i === 0 && j === 0} />
              ))}
              <td className="why">
                {notesOf(monday)
                  .map(note => note.text)
                  .join(' ')}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      {notes.length > 0 && (
        <ul className="cal-notes lines only-phone">
          {notes.map(note => (
            <li key={`${note.day}-${note.text}`}>
              <b>{noteHead(note.day - weekdayOf(note.day) + 1)}</b> {note.text}
            </li>
          ))}
        </ul>
      )}
    </div>
  )
}

function Cell({ cell, isNamed }: { cell: CalendarCell; isNamed: boolean }) {
  const { day, chance, isTight, edges } = cell
  const short = shortDate(day)
  const date = isNamed || short.startsWith('1 ') ? short : (short.split(' ')[0] ?? short)
  if (chance === undefined) {
    return (
      <td className="gone">
        <span aria-hidden="true">{date}</span>
      </td>
    )
  }
  const isWritten = chance >= WRITTEN_FROM
  const className = ['day', isTight ? 'tight' : '', ...edges.map(edge => `edge-${edge}`)]
    .filter(Boolean)
    .join(' ')
  return (
    <td className={className}>
      {isWritten && (
        <i
          className={chance >= SEVERE ? 'level severe' : 'level'}
          style={{ height: `${Math.round(100 * chance)}%` }}
          aria-hidden="true"
        />
      )}
      <span className="date" aria-hidden="true">
        {date}
      </span>
      {isWritten && (
        <span className="figure" aria-hidden="true">
          {Math.round(100 * chance)}
        </span>
      )}
      <span className="vh">
        {longDate(day)}, {shortWords(chance)}
      </span>
    </td>
  )
}

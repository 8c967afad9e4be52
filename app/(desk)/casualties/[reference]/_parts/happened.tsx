import { Section } from '#app/_ui/section.tsx'
import { AsTable } from '#app/_ui/table.tsx'
import { OneButton } from '#app/(desk)/calls/_parts/one-button.tsx'
import { Act } from '#app/(desk)/casualties/_parts/act.tsx'
import type { CasualtyCard } from '#lib/service/casualty.ts'
import { capital } from '#lib/words/capital.ts'
import { CARD } from '#lib/words/casualty.ts'
import { CHANGE } from '#lib/words/casualty-change.ts'
import {
  enteredLate,
  HAPPENED,
  happenedWords,
  metThenWords,
  olderWords,
  takesBackWords,
} from '#lib/words/casualty-happened.ts'
import { displacedWords } from '#lib/words/check.ts'
import { whenWords } from '#lib/words/dates.ts'
import { shownWords } from '#lib/words/desk.ts'
import { optionTitle } from '#lib/words/option.ts'
import { noted, regroupingTakenBack, undone } from '../../actions.ts'
import { hiddenOf, whenFields } from './act-fields.ts'
import { LeftBy } from './late.tsx'

type Entry = CasualtyCard['happened'][number]

/** Entries shown before the rest is folded. */
const RECENT = 15

/** Every entry, newest first; the newest fact of where it is can be taken back. */
export function CardHappened({ card }: { readonly card: CasualtyCard }) {
  const facts = card.happened.filter(one => one.keepingId !== null)
  // The first fact says that it came at all, so it is corrected by a new one and never taken back.
  const undoable = card.can.record ? facts.slice(0, -1) : []
  const undo = (entry: Entry): Undo =>
    entry.isWithGrouping
      ? 'none'
      : entry === undoable[0]
        ? 'newest'
        : undoable.includes(entry)
          ? 'older'
          : 'none'
  const recent = card.happened.slice(0, RECENT)
  const older = card.happened.slice(RECENT)
  return (
    <Section id="happened" head={CARD.happened} note={CARD.happenedNote}>
      {card.can.record && (
        <Act
          id="note"
          action={noted}
          title={CHANGE.note}
          submit={CHANGE.record}
          hidden={hiddenOf(card)}
          fields={[{ kind: 'words', name: 'words', label: CHANGE.noteWords }, ...whenFields('at')]}
        />
      )}
      <ol className="happened">
        {recent.map(entry => (
          <EntryLine key={entry.key} card={card} entry={entry} undo={undo(entry)} />
        ))}
      </ol>
      {older.length > 0 && (
        <AsTable label={olderWords(older.length)}>
          <ol className="happened">
            {older.map(entry => (
              <EntryLine key={entry.key} card={card} entry={entry} undo={undo(entry)} />
            ))}
          </ol>
        </AsTable>
      )}
    </Section>
  )
}

type Undo = 'newest' | 'older' | 'none'
type LineProps = { readonly card: CasualtyCard; readonly entry: Entry; readonly undo: Undo }

function EntryLine({ card, entry, undo }: LineProps) {
  return (
    <li className={entry.state === 'as it is' ? undefined : 'was'}>
      <span className="when">{capital(whenWords(entry.at, entry.within, card.zone))}</span>
      <div>
        <EntryWords entry={entry} zone={card.zone} />
        {entry.what.kind === 'check' &&
          entry.what.displaced.map(gone => (
            <span key={`${gone.reference} ${gone.enclosure}`} className="sub">
              {displacedWords(gone, card.zone)}
            </span>
          ))}
        {entry.shown.length > 0 && <Shown entry={entry} today={card.today} />}
        {card.can.record && entry.groupingId !== null && (
          <OneButton
            action={regroupingTakenBack}
            text={HAPPENED.takeBack}
            weight="plain"
            fields={{ ...hiddenOf(card), lineId: String(entry.groupingId) }}
          />
        )}
        <MetThen entry={entry} zone={card.zone} />
        {undo === 'newest' && <TakeBack card={card} entry={entry} />}
        {undo === 'older' && (
          <AsTable label={HAPPENED.wasWrong}>
            <TakeBack card={card} entry={entry} />
          </AsTable>
        )}
      </div>
    </li>
  )
}

/** Others in the same place at that time: one of them may have left by then. */
function MetThen({ entry, zone }: { readonly entry: Entry; readonly zone: string }) {
  return entry.met.map(({ reference, species, centreId, since, at }) => (
    <span key={reference} className="sub">
      {metThenWords(species, since, zone)}{' '}
      <LeftBy reference={reference} centreId={centreId} at={at} zone={zone} />
    </span>
  ))
}

function TakeBack({ card, entry }: { readonly card: CasualtyCard; readonly entry: Entry }) {
  return (
    <OneButton
      action={undone}
      text={HAPPENED.takeBack}
      weight="plain"
      fields={{ ...hiddenOf(card), keepingId: String(entry.keepingId) }}
    />
  )
}

function EntryWords({ entry, zone }: { readonly entry: Entry; readonly zone: string }) {
  const { what, by, enteredAt, state } = entry
  const marks = [
    state === 'corrected' ? HAPPENED.corrected : '',
    state === 'taken back' ? HAPPENED.takenBack : '',
    state === 'waits' ? HAPPENED.waits : '',
    state === 'set aside' ? HAPPENED.setAside : '',
    by ?? '',
    enteredAt === null ? '' : enteredLate(enteredAt, zone),
  ].filter(Boolean)
  return (
    <p>
      {state === 'takes back' ? takesBackWords(what) : happenedWords(what)}
      {marks.length > 0 && <span className="quiet"> {marks.join(', ')}</span>}
    </p>
  )
}

function Shown({ entry, today }: { readonly entry: Entry; readonly today: number }) {
  return (
    <AsTable label={HAPPENED.shown}>
      <ol className="shown">
        {entry.shown.map(({ option, isTaken }) => (
          <li key={option.key} aria-current={isTaken ? 'true' : undefined}>
            {shownWords(optionTitle(option, today), option.total, isTaken)}
          </li>
        ))}
      </ol>
    </AsTable>
  )
}

import { z } from 'zod'
import { ButtonLink } from '#app/_ui/button.tsx'
import { Notice } from '#app/_ui/notice.tsx'
import { localDateTimeText } from '#lib/domain/text.ts'
import type { CasualtyCard } from '#lib/service/casualty.ts'
import { paths } from '#lib/web/paths.ts'
import { CARD, firstInWords, LATE, leftWords, lostWords } from '#lib/words/casualty.ts'

type LeftByProps = {
  readonly reference: string
  readonly centreId: number
  /** When it is thought to have left. */
  readonly at: Date
  readonly zone: string
}

/** The correction of a collision: the form in which another one's leaving is recorded, its time filled in. */
export function LeftBy({ reference, centreId, at, zone }: LeftByProps) {
  const left = z.encode(localDateTimeText(zone), at)
  return <a href={`${paths.casualty(reference, { to: centreId, left })}#move`}>{leftWords(reference)}</a>
}

/** That it counts; and, where others were in first, the correction: one of them may have left by then. */
export function ShortKept({ card }: { readonly card: CasualtyCard }) {
  return (
    <>
      {CARD.shortKept}
      {card.late.firstIn.map(({ reference, species, centreId, since }) => (
        <span key={reference} className="sub">
          {firstInWords(species, since, card.zone)}{' '}
          <LeftBy reference={reference} centreId={centreId} at={card.now.since} zone={card.zone} />
        </span>
      ))}
    </>
  )
}

/** Its place was given to others while it counted as gone, or as being elsewhere: somebody has to say who is where. */
export function PlaceGiven({ card }: { readonly card: CasualtyCard }) {
  const { now, zone } = card
  const { sinceIn } = card.late
  const [first] = sinceIn
  if (first === undefined) return null
  return (
    <Notice
      kind="check-this"
      sentence={LATE.given}
      kept={
        <>
          {sinceIn.map(({ reference, species, since }) => (
            <span key={reference} className="sub">
              <a href={paths.casualty(reference)}>{reference}</a>: {firstInWords(species, since, zone)}
            </span>
          ))}
          <span className="sub">{LATE.givenNext}</span>
          <span className="sub">
            <LeftBy reference={card.head.reference} centreId={first.centreId} at={first.since} zone={zone} />
          </span>
        </>
      }
      todo={
        card.can.record
          ? sinceIn.map(({ reference, centreId }) => (
              <ButtonLink
                key={reference}
                weight="plain"
                href={`${paths.casualty(reference, { to: now.centreId ?? centreId })}#move`}
              >
                {LATE.move(reference)}
              </ButtonLink>
            ))
          : undefined
      }
    />
  )
}

/** What ended with an end that was taken back, and is not put back by that. */
export function LostWithEnd({ card }: { readonly card: CasualtyCard }) {
  if (card.late.lost.length === 0) return null
  return (
    <Notice
      kind="mind"
      sentence={LATE.lost}
      kept={
        <>
          {card.late.lost.map(one => (
            <span key={`${one.kind} ${one.what} ${one.at?.getTime()}`} className="sub">
              {lostWords(one, card.zone)}
            </span>
          ))}
          <span className="sub">{LATE.lostNext}</span>
        </>
      }
    />
  )
}

import { z } from 'zod'
import { Act } from '#app/(desk)/casualties/_parts/act.tsx'
import { localDateTimeText } from '#lib/domain/text.ts'
import type { DriverOffered, JourneyView, LegView } from '#lib/service/road.ts'
import { legText, linkStandsWords, ROAD } from '#lib/words/road.ts'
import { gaveOn, madeLink, wroteDown } from '../actions.ts'
import { legFields } from './leg-fields.ts'
import { LegLink } from './leg-link.tsx'

type Props = {
  readonly journey: JourneyView
  readonly leg: LegView
  readonly drivers: readonly DriverOffered[]
  readonly now: Date
  readonly zone: string
}

/** What can be done about one leg: a link, what was said on the phone, another driver. */
export function LegActs({ journey, leg, drivers, now, zone }: Props) {
  const isOpen = leg.state === 'planned' || leg.state === 'on the road'
  if (!isOpen && leg.trouble === undefined) return null
  return (
    <div className="leg-acts">
      {isOpen && (
        <>
          <p className="small">{linkStandsWords(leg.link, now, zone)}</p>
          <LegLink
            action={madeLink}
            legId={leg.id}
            text={legText(journey, leg, now, zone)}
            driver={{ name: leg.driver, phone: leg.phone }}
          />
          <Said leg={leg} />
        </>
      )}
      <Other leg={leg} drivers={drivers} zone={zone} />
    </div>
  )
}

function Said({ leg }: Pick<Props, 'leg'>) {
  const has = { value: 'have', label: ROAD.have }
  const delivered = { value: 'delivered', label: ROAD.delivered }
  return (
    <Act
      id={`said-${leg.id}`}
      action={wroteDown}
      title={ROAD.said}
      submit={ROAD.write}
      hidden={{ legId: String(leg.id) }}
      fields={[
        {
          kind: 'one',
          name: 'say',
          label: ROAD.said,
          columns: 'row',
          choices: [leg.state === 'planned' ? has : delivered, { value: 'cant', label: ROAD.cant }],
        },
        { kind: 'text', name: 'reason', label: ROAD.reason, hint: ROAD.reasonHint },
      ]}
    />
  )
}

/** The same leg again, for somebody else to drive. */
function Other({ leg, drivers, zone }: Pick<Props, 'leg' | 'drivers' | 'zone'>) {
  const local = (at: Date) => z.encode(localDateTimeText(zone), at)
  return (
    <Act
      id={`other-${leg.id}`}
      action={gaveOn}
      title={ROAD.other}
      submit={ROAD.giveOn}
      hidden={{ legId: String(leg.id) }}
      fields={legFields(
        '',
        { drivers: drivers.filter(({ id }) => id !== leg.driverId), withFinder: false },
        {
          fromWords: leg.fromWords,
          toWords: leg.toWords,
          pickUpAt: local(leg.pickUpAt),
          dueAt: local(leg.dueAt),
        },
      )}
    />
  )
}

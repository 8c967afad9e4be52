import type { CSSProperties } from 'react'
import { PLAN_WORDS, sizeWords } from '#lib/words/plan.ts'
import { Perches } from './perch.tsx'
import type { PlanOutdoors } from './plan-data.ts'

export type OutdoorPlanProps = { readonly enclosures: readonly PlanOutdoors[] }

/** What stands outdoors, to scale and in walking order: 50 px a metre, less where the longest would not fit. */
export function OutdoorPlan({ enclosures }: OutdoorPlanProps) {
  const longest = Math.max(5, ...enclosures.map(enclosure => enclosure.lengthM))
  return (
    <div className="outdoors" style={{ '--longest': longest } as CSSProperties}>
      <ol className="yard">
        {enclosures.map(enclosure => (
          <Enclosure key={enclosure.id} enclosure={enclosure} />
        ))}
      </ol>
      <p className="scale only-wide">
        <span className="scale-bar" aria-hidden="true" />
        {PLAN_WORDS.scale}
      </p>
      <p className="plan-key">
        {PLAN_WORDS.outdoorsKey} {PLAN_WORDS.placesKey}
      </p>
    </div>
  )
}

function Enclosure({ enclosure }: { enclosure: PlanOutdoors }) {
  const { name, lengthM, widthM, wall, roof, isShut } = enclosure
  const size = { '--w': lengthM, '--h': widthM } as CSSProperties
  return (
    <li id={enclosure.id} className={`av ${wall} ${roof}${isShut ? ' crossed' : ''}`} style={size}>
      <h3>
        {name} <small>{sizeWords(lengthM, widthM)}</small>
      </h3>
      <p className="summary">{enclosure.summary}</p>
      <Perches places={enclosure.places} />
      {enclosure.hasDoubleDoor && <span className="door" aria-hidden="true" />}
    </li>
  )
}

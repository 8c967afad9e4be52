import { PLAN_WORDS } from '#lib/words/plan.ts'
import { SmallRibbon } from '../ribbon/stay-ribbon.tsx'
import type { PlanPlace } from './plan-data.ts'

/** One place as a perch: a solid bar when taken, dots when free; the whole of it is the target. */
export function Perch({ place }: { readonly place: PlanPlace }) {
  return (
    <div className={`perch is-${place.kind}`}>
      <PerchWords place={place} />
      {place.kind === 'in' && place.ribbon !== undefined && <SmallRibbon data={place.ribbon} />}
    </div>
  )
}

function PerchWords({ place }: { readonly place: PlanPlace }) {
  switch (place.kind) {
    case 'in':
      return (
        <div className="plain">
          <a href={place.href}>
            <b>{place.species}</b> <span className="ref">{place.reference}</span>
          </a>
          <span className="to">{place.until}</span>
          {place.note !== undefined && (
            <span className={place.isGrave === true ? 'must grave' : 'must'}>{place.note}</span>
          )}
        </div>
      )
    case 'held':
      return (
        <div className="plain">
          {place.species !== undefined && <Held place={place} species={place.species} />}
          <span className="to">{place.text}</span>
        </div>
      )
    case 'free':
      return (
        <div className="plain">
          {place.href === undefined ? (
            <span className="free">{PLAN_WORDS.free}</span>
          ) : (
            <FreeLink href={place.href} />
          )}
          {place.note !== undefined && <> {place.note}</>}
        </div>
      )
    default:
      return (
        <div className="plain">
          <span className="to">{place.text}</span>
        </div>
      )
  }
}

function FreeLink({ href }: { readonly href: string }) {
  return (
    <a className="free" href={href}>
      {PLAN_WORDS.free}
    </a>
  )
}

type HeldPlace = Extract<PlanPlace, { kind: 'held' }>

function Held({ place, species }: { readonly place: HeldPlace; readonly species: string }) {
  const name = (
    <>
      <b>{species}</b> {place.reference !== undefined && <span className="ref">{place.reference}</span>}
    </>
  )
  return place.href === undefined ? <span>{name}</span> : <a href={place.href}>{name}</a>
}

/** All places of an enclosure; more than one make a list. */
export function Perches({ places }: { readonly places: readonly PlanPlace[] }) {
  const only = places[0]
  if (only === undefined) return null
  if (places.length === 1) return <Perch place={only} />
  const keyed = keyedPlaces(places)
  return (
    <ol className="perches">
      {keyed.map(({ key, place }) => (
        <li key={key}>
          <Perch place={place} />
        </li>
      ))}
    </ol>
  )
}

function keyedPlaces(places: readonly PlanPlace[]): { key: string; place: PlanPlace }[] {
  return places.map((place, i) => ({
    key: place.kind === 'in' ? place.reference : `${place.kind}-${i}`,
    place,
  }))
}

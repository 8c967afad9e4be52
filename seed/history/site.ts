/**
 * Who is in which enclosure while the history runs.
 * Promise: nobody is put where the database would not let them be: one company at a time, places within the stocking,
 * solitary animals alone, predators and prey in unlike rooms where the room asks it, nothing while it dries.
 */
import type { CombinedStage } from '#lib/domain/care-plan-combination.ts'
import { fitsEnclosure, type PlaceNeed, placeNeed } from '#lib/domain/need.ts'
import { groupOf, speciesOf, type Trade } from '#lib/domain/trade.ts'
import { CENTRES } from '../scenario/centres.ts'
import { type Enclosure, listEnclosures, listRooms } from '../scenario/site.ts'
import { stockingOf } from '../scenario/stock.ts'
import type { Animal } from './types.ts'

const MS_PER_MINUTE = 60_000

type Occupant = { readonly casualtyId: number; readonly key: string; readonly preys: Animal['preys'] }

type Cage = {
  readonly enclosure: Enclosure
  readonly fit: Parameters<typeof fitsEnclosure>[1]
  readonly room: { readonly isApart: boolean; readonly cages: Cage[] }
  readonly places: Map<number, Occupant>
  readonly dryUntil: Map<number, number>
  lastKey: string | null
  restsUntil: number
}

export type Spot = { readonly enclosureId: number; readonly placeNo: number }

export type Who = { readonly casualtyId: number; readonly arrivalId: number; readonly animal: Animal }

export class Site {
  readonly #cages: Cage[]
  readonly #byId: ReadonlyMap<number, Cage>
  readonly #trade: Trade
  /** By centre and what of a need decides it: what an enclosure is does not change while the history runs. */
  readonly #fits = new Map<string, readonly Cage[]>()

  constructor(trade: Trade) {
    this.#trade = trade
    const rooms = new Map(
      listRooms().map(room => [room.id, { isApart: room.predators_apart, cages: [] as Cage[] }]),
    )
    this.#cages = listEnclosures().flatMap(enclosure => {
      const room = rooms.get(enclosure.room_id)
      if (room === undefined) return []
      const takes = CENTRES[enclosure.centre_id - 1]?.takes ?? []
      const here = trade.species.filter(one => takes.includes(one.group_slug))
      const cage: Cage = {
        enclosure,
        fit: {
          housing: enclosure.housing_type,
          sizeRank: enclosure.size_rank,
          lengthM: Math.max(enclosure.length_m, enclosure.width_m),
          features: [...enclosure.features],
          stocking: Object.fromEntries(
            stockingOf(
              enclosure.plan,
              here.map(species => ({ species, group: groupOf(trade, species.group_slug) })),
            ),
          ),
        },
        room,
        places: new Map(),
        dryUntil: new Map(),
        lastKey: null,
        restsUntil: 0,
      }
      room.cages.push(cage)
      return [cage]
    })
    this.#byId = new Map(this.#cages.map(cage => [cage.enclosure.id, cage]))
  }

  /** What an animal needs in a stage that begins at an instant. */
  need(who: Who, stage: CombinedStage, month: number): PlaceNeed {
    const species = speciesOf(this.#trade, who.animal.species)
    const group = groupOf(this.#trade, species.group_slug)
    const { age } = who.animal
    const animal = {
      species,
      group,
      age,
      id: String(who.casualtyId),
      arrivalId: String(who.arrivalId),
      month,
    }
    return placeNeed(animal, stage)
  }

  /** A place at the centre, the preferred housing first; shared and small enclosures before others. */
  find(who: Who, need: PlaceNeed, centreId: number, at: number): Spot | undefined {
    const cages = this.#fitting(need, centreId)
    for (const type of need.housing) {
      const free = cages
        .filter(cage => cage.enclosure.housing_type === type)
        .flatMap(cage => {
          const placeNo = this.#freePlace(cage, who, at)
          return placeNo === undefined ? [] : [{ cage, placeNo }]
        })
        .sort((a, b) => b.cage.places.size - a.cage.places.size || sizeOf(a.cage) - sizeOf(b.cage))[0]
      if (free !== undefined) return { enclosureId: free.cage.enclosure.id, placeNo: free.placeNo }
    }
    return undefined
  }

  /** Whether the centre has such housing at all, taken or not. */
  has(need: PlaceNeed, centreId: number): boolean {
    return this.#fitting(need, centreId).length > 0
  }

  put(spot: Spot, who: Who): void {
    const cage = this.#cage(spot.enclosureId)
    const key = keyOf(cage, who)
    cage.places.set(spot.placeNo, { casualtyId: who.casualtyId, key, preys: who.animal.preys })
    cage.lastKey = key
  }

  take(spot: Spot, at: number): void {
    const cage = this.#cage(spot.enclosureId)
    const dry = at + cage.enclosure.turnaround_min * MS_PER_MINUTE
    cage.places.delete(spot.placeNo)
    if (cage.enclosure.dries_after === 'each') cage.dryUntil.set(spot.placeNo, dry)
    cage.restsUntil = Math.max(cage.restsUntil, dry)
  }

  #fitting(need: PlaceNeed, centreId: number): readonly Cage[] {
    const { stage, housing, needsIsolation, sizeRank, flightLengthM, features, company } = need
    const key = JSON.stringify([
      centreId,
      stage,
      housing,
      needsIsolation,
      sizeRank,
      flightLengthM,
      features,
      company,
    ])
    const known = this.#fits.get(key)
    if (known !== undefined) return known
    const fitting = this.#cages.filter(
      cage =>
        cage.enclosure.centre_id === centreId &&
        !cage.enclosure.isForStory &&
        fitsEnclosure(need, cage.fit).length === 0,
    )
    this.#fits.set(key, fitting)
    return fitting
  }

  #freePlace(cage: Cage, who: Who, at: number): number | undefined {
    const stock = cage.fit.stocking[who.animal.company]
    if (stock === undefined) return undefined
    const key = keyOf(cage, who)
    const occupants = [...cage.places.values()]
    if (occupants.some(one => one.key !== key)) return undefined
    if (cage.restsUntil > at && cage.lastKey !== key) return undefined
    if (cage.room.isApart && who.animal.preys !== null && this.#isOpposed(cage, who.animal.preys))
      return undefined
    const places = who.animal.isAlone ? 1 : stock
    for (let no = 1; no <= places; no++) {
      if (!cage.places.has(no) && (cage.dryUntil.get(no) ?? 0) <= at) return no
    }
    return undefined
  }

  #isOpposed(cage: Cage, preys: 'predator' | 'prey'): boolean {
    return cage.room.cages.some(other =>
      [...other.places.values()].some(one => one.preys !== null && one.preys !== preys),
    )
  }

  #cage(enclosureId: number): Cage {
    const cage = this.#byId.get(enclosureId)
    if (cage === undefined) throw new RangeError(`enclosureId needs an enclosure, got ${enclosureId}`)
    return cage
  }
}

/** As the database keys claims: solitary animals first, then arrivals in isolation, then companies. */
function keyOf(cage: Cage, { casualtyId, arrivalId, animal }: Who): string {
  if (animal.isAlone) return `alone:${casualtyId}`
  return cage.enclosure.housing_type === 'isolation'
    ? `arrival:${arrivalId}:${animal.company}`
    : animal.company
}

function sizeOf({ enclosure }: Cage): number {
  return enclosure.housing_type.endsWith('aviary')
    ? Math.max(enclosure.length_m, enclosure.width_m)
    : enclosure.size_rank
}

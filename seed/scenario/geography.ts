/**
 * The invented coast: kilometres east and north of a point in open water, so that no real place is meant.
 * Land lies to the west, sea to the east; the names are made up.
 */
export type Spot = readonly [kmEast: number, kmNorth: number]
export type Position = { readonly latitude: number; readonly longitude: number }

const ORIGIN: Position = { latitude: 55.5, longitude: 3 }
const KM_PER_DEGREE = 111.195
const PLACES = 5

/** Latitude and longitude of a spot on the coast, to about a metre. */
export function positionOf([kmEast, kmNorth]: Spot): Position {
  const latitude = ORIGIN.latitude + kmNorth / KM_PER_DEGREE
  const perDegreeEast = KM_PER_DEGREE * Math.cos((ORIGIN.latitude * Math.PI) / 180)
  return {
    latitude: Number(latitude.toFixed(PLACES)),
    longitude: Number((ORIGIN.longitude + kmEast / perDegreeEast).toFixed(PLACES)),
  }
}

/** Kilometres between two spots as the bird flies. */
export function kmApart(a: Spot, b: Spot): number {
  return Math.hypot(a[0] - b[0], a[1] - b[1])
}

type Kind = 'town' | 'village' | 'road' | 'landmark' | 'water'
export type Place = {
  readonly name: string
  readonly kind: Kind
  readonly spot: Spot
  readonly also?: string
}

const TOWNS: readonly [string, Spot][] = [
  ['Averbrook', [-1, 1]],
  ['Quarrowby', [-9, -6]],
  ['Marrowick', [4, 11]],
  ['Saltrigg', [7, -13]],
  ['Rookhythe', [9, 27]],
  ['Withenholt', [-4, 47]],
  ['Ashquay', [11, 63]],
  ['Osterskeld', [13, 69]],
  ['Corverley', [-24, 3]],
]
const VILLAGES: readonly [string, Spot][] = [
  ['Tamsel', [-32, 15]],
  ['Farrowmere', [-17, -31]],
  ['Lanternhay', [-20, 36]],
  ['Brindlecote', [-12, 9]],
  ['Ollerstane', [-27, -9]],
  ['Pennelby', [-3, -22]],
  ['Dunmarrow', [-15, 20]],
  ['Heskwith', [-9, 38]],
  ['Winnowford', [-21, -17]],
  ['Larkenby', [1, 33]],
  ['Oxmarsh', [6, 40]],
  ['Millrendle', [-30, 27]],
  ['Fennick', [-11, 55]],
  ['Stranmere', [2, 57]],
  ['Tolverby', [-7, -40]],
  ['Netherquay', [10, -1]],
  ['Overquay', [8, -4]],
  ['Harrowsand', [12, 51]],
]
const ROADS: readonly [string, Spot][] = [
  ['Quarrowby bypass', [-11, -4]],
  ['Oxmarsh causeway', [4, 42]],
  ['Coast road at Rookhythe', [8, 24]],
  ['Saltrigg hill', [5, -11]],
  ['Marrowick roundabout', [2, 10]],
  ['Heskwith lane', [-7, 41]],
  ['Drove to Pennelby', [-5, -19]],
  ['Corverley viaduct', [-22, 4]],
  ['Fennick straight', [-8, 51]],
  ['Tamsel bends', [-29, 13]],
  ['Farrowmere crossroads', [-15, -28]],
  ['Ashquay ring road', [9, 61]],
  ['Ollerstane ford', [-26, -11]],
  ['Brindlecote toll', [-13, 7]],
]
const LANDMARKS: readonly [string, Spot][] = [
  ['Osterskeld light', [15, 71]],
  ['Brindlecote water tower', [-12, 10]],
  ['Tolverby windmill', [-8, -39]],
  ['Larkenby sports ground', [1, 34]],
  ['Ashquay ferry slip', [12, 63]],
  ['Saltrigg sandpit', [6, -15]],
  ['Winnowford weir', [-20, -16]],
  ['Dunmarrow quarry', [-16, 21]],
  ['Stranmere bird hide', [3, 58]],
  ['Rookhythe pier', [10, 27]],
  ['Marrowick station', [4, 12]],
  ['Netherquay boatyard', [11, -1]],
  ['Withenholt mast', [-6, 45]],
  ['Quarrowby retail park', [-10, -7]],
]
const WATERS: readonly [string, Spot][] = [
  ['Tamsel beck', [-31, 17]],
  ['Averbrook reservoir', [-4, 4]],
  ['Strand pool', [3, 56]],
  ['Oxmarsh saltings', [8, 41]],
  ['River Quarrow', [-14, -9]],
  ['Harrowsand beach', [14, 51]],
  ['Farrow mere', [-18, -32]],
  ['Penny pool', [-4, -24]],
]
const ALSO: Readonly<Record<string, string>> = {
  'Quarrowby bypass': 'the bypass',
  'Osterskeld light': 'the lighthouse',
  'Withenholt mast': 'the radio mast',
  'Harrowsand beach': 'the long beach',
}

/** Every place that a caller may name. */
export const GAZETTEER: readonly Place[] = [
  ...TOWNS.map(named('town')),
  ...VILLAGES.map(named('village')),
  ...ROADS.map(named('road')),
  ...LANDMARKS.map(named('landmark')),
  ...WATERS.map(named('water')),
]

function named(kind: Kind): (place: readonly [string, Spot]) => Place {
  return ([name, spot]) => {
    const also = ALSO[name]
    return { name, kind, spot, ...(also !== undefined && { also }) }
  }
}

/** A place by its name. */
export function getPlace(name: string): Place {
  const place = GAZETTEER.find(one => one.name === name)
  if (place === undefined) throw new RangeError(`name needs a place of the gazetteer, got ${name}`)
  return place
}

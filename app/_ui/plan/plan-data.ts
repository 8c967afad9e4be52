import type { RibbonData } from '../ribbon/ribbon-data.ts'

/** One place in an enclosure, and who or what is in it. */
export type PlanPlace =
  | {
      readonly kind: 'in'
      readonly species: string
      readonly reference: string
      readonly href: string
      /** "until about 27 Nov", "moves to 7 on Fri". */
      readonly until: string
      readonly ribbon?: RibbonData | undefined
      /** What must be known at the door: "alone", "one more than fits". */
      readonly note?: string | undefined
      readonly isGrave?: boolean | undefined
    }
  | {
      readonly kind: 'held'
      /** Who it is held for, and until or from when. */
      readonly species?: string | undefined
      readonly reference?: string | undefined
      readonly href?: string | undefined
      readonly text: string
    }
  | { readonly kind: 'cleaning'; readonly text: string }
  | { readonly kind: 'shut'; readonly text: string }
  | { readonly kind: 'free'; readonly href?: string | undefined; readonly note?: string | undefined }

/** A cage in a wall or a room of its own. */
export type PlanCage = {
  readonly id: string
  /** The number or letter on its door. */
  readonly label: string
  /** How wide the door is, beside its neighbours on the shelf. */
  readonly width: number
  readonly places: readonly PlanPlace[]
}

export type PlanRoom =
  /** A wall of cages as one faces it, shelf by shelf from above. */
  | {
      readonly kind: 'wall'
      readonly id: string
      readonly name: string
      readonly summary: string
      readonly shelves: readonly (readonly PlanCage[])[]
    }
  /** Rooms with thick walls side by side, such as isolation, before a lobby or passage. */
  | {
      readonly kind: 'rooms'
      readonly id: string
      readonly name: string
      readonly summary: string
      readonly rooms: readonly PlanCage[]
      /** "lobby: change boots and gown here". */
      readonly lobby?: string | undefined
    }

export type PlanOutdoors = {
  readonly id: string
  readonly name: string
  readonly lengthM: number
  readonly widthM: number
  readonly wall: 'aviary' | 'fence' | 'pool'
  readonly roof: 'netting' | 'roofed' | 'half' | 'open'
  readonly hasDoubleDoor: boolean
  /** "1 of 2 places free. One species at a time." */
  readonly summary: string
  readonly isShut: boolean
  readonly places: readonly PlanPlace[]
}

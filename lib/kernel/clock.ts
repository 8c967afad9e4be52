/**
 * The type of a clock. Nothing in the pure rooms reads the time: whoever needs it is given one of these,
 * or the instant itself.
 */

/** Says which instant it is. */
export type Clock = () => Date

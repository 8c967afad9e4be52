/**
 * The type of a source of chance. Nothing in the pure rooms draws for itself: it is given one of these,
 * made from a seed that is stored with whatever was drawn.
 */

/** Uniform on [0, 1), a new value at each call. */
export type Random = () => number

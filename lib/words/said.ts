/**
 * The shape of what is said when something is refused: what happened, and what can be done.
 */

export type Said = { readonly say: string; readonly next: string }

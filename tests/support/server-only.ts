/** Stands in for the package `server-only`, which refuses to load outside a server build. */
export {}

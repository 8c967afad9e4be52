/**
 * The password of everybody in the demonstration. Plain JavaScript, because the start command reads it before anything
 * that could read TypeScript is installed. Outside the demonstration it opens nothing and may not be chosen.
 */

export const DEMO_PASSWORD = 'kestrel over the marsh'

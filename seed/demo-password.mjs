/** The password of everybody in the demo. Real installations have no such people. */
export const DEMO_PASSWORD = 'kestrel over the marsh'

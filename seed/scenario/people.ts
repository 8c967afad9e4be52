/** People with invented names: who signs in, as what, where. Addresses are of a domain that can't exist. */
export type RolePlan =
  | { readonly role: 'coordinator' | 'manager' | 'administrator' }
  | { readonly role: 'carer'; readonly centre: string }
  | { readonly role: 'vet'; readonly practice: string }

export type PersonPlan = {
  readonly name: string
  readonly phone?: string
  readonly roles: readonly RolePlan[]
  /** What the demo's sign-in list says of them; undefined: not in the list. */
  readonly shownAs?: string
}

const coordinator = { role: 'coordinator' } as const
const manager = { role: 'manager' } as const
const administrator = { role: 'administrator' } as const
const carer = (centre: string): RolePlan => ({ role: 'carer', centre })
const vet = (practice: string): RolePlan => ({ role: 'vet', practice })

/** Everyone; their numbers in the database are their places in this list, from 1. */
export const PEOPLE: readonly PersonPlan[] = [
  { name: 'Marit Sollwyn', phone: '07700 900501', roles: [coordinator], shownAs: 'Coordinator' },
  { name: 'Joss Penhaddon', phone: '07700 900502', roles: [coordinator] },
  { name: 'Emrik Tallowby', phone: '07700 900503', roles: [coordinator] },
  {
    name: 'Odile Brackenray',
    roles: [carer('Averbrook Wildlife Hospital')],
    shownAs: 'Carer at the large hospital',
  },
  { name: 'Hamo Luckstone', roles: [carer('Averbrook Wildlife Hospital')] },
  { name: 'Petra Winterslow', roles: [carer('Averbrook Wildlife Hospital')] },
  { name: 'Ansty Kelderwick', roles: [carer('Tamsel House')] },
  { name: 'Bryony Catchmole', roles: [carer('Tamsel House')] },
  { name: 'Corin Esslemay', phone: '07700 900121', roles: [carer('Farrowmere Flights')] },
  { name: 'Delphie Harrowgrass', roles: [carer('Farrowmere Flights')] },
  { name: 'Yrsa Colbrand', phone: '07700 900131', roles: [carer('Osterskeld Seal and Seabird Unit')] },
  { name: 'Fenton Quillmere', roles: [carer('Osterskeld Seal and Seabird Unit')] },
  {
    name: 'Sunniva Thackwell',
    phone: '07700 900141',
    roles: [carer('Withenholt Bird Ward')],
    shownAs: 'Carer at the small ward',
  },
  {
    name: 'Nettie Morrowby',
    phone: '07700 900151',
    roles: [carer('Lanternhay'), coordinator, manager],
    shownAs: 'One person who is a whole centre',
  },
  {
    name: 'Tobias Thessalby',
    phone: '07700 900202',
    roles: [vet('Quarrow Bridge Veterinary Centre')],
    shownAs: 'Partner vet',
  },
  { name: 'Ingrith Sandlow', roles: [vet('Rookhythe Vets')] },
  { name: 'Caspian Fellowdale', roles: [vet('Corverley Farm and Wildlife Practice')] },
  { name: 'Leocadia Strake', roles: [vet('Heskwith Exotics')] },
  { name: 'Rupert Ashgarth', roles: [manager], shownAs: 'Manager' },
  { name: 'Wilhelmina Sparrowhythe', roles: [administrator], shownAs: 'Administrator' },
]

/** A person's address to sign in with. */
export function emailOf(person: PersonPlan): string {
  return `${person.name.toLowerCase().replaceAll(' ', '.')}@roostwright.example`
}

/** The number of a person by name. */
export function personIdOf(name: string): number {
  const at = PEOPLE.findIndex(person => person.name === name)
  if (at < 0) throw new RangeError(`name needs a person of the scenario, got ${name}`)
  return at + 1
}

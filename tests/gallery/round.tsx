/**
 * A whole centre with one of each state, invented.
 */
import { IndoorPlan } from '#app/_ui/plan/indoor-plan.tsx'
import { OutdoorPlan } from '#app/_ui/plan/outdoor-plan.tsx'
import type { PlanCage, PlanPlace } from '#app/_ui/plan/plan-data.ts'
import { Answer, Section } from '#app/_ui/section.tsx'
import { PLAN_WORDS } from '#lib/words/plan.ts'
import { IN_CARE, TWO_CENTRES, WEAK } from './samples.ts'

function animal(species: string, reference: string, until: string, ribbon = TWO_CENTRES): PlanPlace {
  return { kind: 'in', species, reference, href: `#${reference}`, until, ribbon }
}

function cage(label: string, width: number, ...places: PlanPlace[]): PlanCage {
  return { id: `cage-${label}`, label, width, places }
}

const FREE: PlanPlace = { kind: 'free', href: '#put' }
const UPPER = [
  cage('1', 4, animal('Curlew', 'Marram 8', 'moves to 7 on Fri')),
  cage('2', 5, animal('Gannet', 'Oarweed 2', 'until about 27 Nov', WEAK)),
  cage('3', 3, { ...FREE, note: 'heated' }),
  cage('4', 4, animal('Hedgehog', 'Teasel 19', 'until about 28 Nov')),
  cage('5', 3, { kind: 'cleaning', text: 'cleaning, free Thu 12:00' }),
  cage('6', 5, {
    kind: 'held',
    species: 'Kestrel',
    reference: 'Marram 12',
    href: '#m',
    text: 'held, due tonight, 00:10',
  }),
]
const LOWER = [
  cage('7', 6, {
    kind: 'in',
    species: 'Great black-backed gull',
    reference: 'Rush 20',
    href: '#r',
    until: 'radiograph Fri',
    ribbon: IN_CARE,
    note: 'alone; two people',
  }),
  cage('8', 4, animal('Kestrel', 'Samphire 41', 'until 4 to 22 Dec', IN_CARE)),
  cage(
    '9',
    6,
    animal('Blackbird', 'Sorrel 5', 'about 1 Dec'),
    animal('Blackbird', 'Sorrel 6', 'about 1 Dec'),
    FREE,
  ),
  cage('10', 2, FREE),
  cage('11', 4, { kind: 'shut', text: 'shut, door broken, until Mon 30 Nov' }),
]

export function Round() {
  return (
    <>
      <Answer
        reference="Hollin Ness"
        place="hospital"
        sentence="15 in, 1 expected tonight, 7 places free. The ward has two"
        basis={`Wednesday 25 November, 23:44. ${PLAN_WORDS.smallRibbons}`}
      />
      <Section
        id="indoors"
        head="Indoors"
        note="Choose an animal to see its stay, or a free place to put one in it."
      >
        <IndoorPlan
          rooms={[
            {
              kind: 'wall',
              id: 'ward',
              name: 'Ward',
              summary: 'The wall of cages as you face it. 2 free, 1 held, 1 being cleaned.',
              shelves: [UPPER, LOWER],
            },
            {
              kind: 'rooms',
              id: 'isolation',
              name: 'Isolation',
              summary: 'Four rooms, own air, one lobby. 1 free.',
              lobby: 'lobby: change boots and gown here',
              rooms: [
                cage('A', 1, animal('Mute swan', 'Flote 3', 'out 2 Dec at the earliest')),
                cage('B', 1, animal('Herring gull', 'Oarweed 11', 'out 4 Dec at the earliest')),
                cage('C', 1, FREE),
                cage('D', 1, { kind: 'cleaning', text: 'at rest until 30 Nov' }),
              ],
            },
          ]}
        />
      </Section>
      <Section id="outdoors" head="Outdoors" note="As you walk out of the back door, left to right.">
        <OutdoorPlan
          enclosures={[
            {
              id: 'flight',
              name: 'Flight',
              lengthM: 15,
              widthM: 4,
              wall: 'aviary',
              roof: 'netting',
              hasDoubleDoor: true,
              isShut: true,
              summary: 'Shut for re-netting until 20 January. Nobody in.',
              places: [],
            },
            {
              id: 'pool',
              name: 'Pool',
              lengthM: 4,
              widthM: 4,
              wall: 'pool',
              roof: 'open',
              hasDoubleDoor: false,
              isShut: false,
              summary: '2 of 3 places free.',
              places: [animal('Cormorant', 'Flote 6', 'about 30 Nov', WEAK), FREE],
            },
            {
              id: 'sheltered-1',
              name: 'Sheltered 1',
              lengthM: 6,
              widthM: 3,
              wall: 'aviary',
              roof: 'half',
              hasDoubleDoor: true,
              isShut: false,
              summary: '1 of 3 places free. One species at a time.',
              places: [
                animal('Sparrowhawk', 'Dulse 7', '6 to 22 Dec', IN_CARE),
                { kind: 'held', text: 'held for Marram 12 from 3 Dec' },
                FREE,
              ],
            },
            {
              id: 'pen',
              name: 'Pen',
              lengthM: 5,
              widthM: 4,
              wall: 'fence',
              roof: 'open',
              hasDoubleDoor: false,
              isShut: false,
              summary: '1 of 1 place free. Deer, badger or swan, alone.',
              places: [FREE],
            },
            {
              id: 'shed',
              name: 'Shed',
              lengthM: 2,
              widthM: 2,
              wall: 'aviary',
              roof: 'roofed',
              hasDoubleDoor: false,
              isShut: false,
              summary: 'One more than fits.',
              places: [
                animal('Hedgehog', 'Teasel 3', 'about 2 Dec'),
                {
                  kind: 'in',
                  species: 'Hedgehog',
                  reference: 'Teasel 4',
                  href: '#t',
                  until: 'about 3 Dec',
                  note: 'one too many',
                  isGrave: true,
                },
              ],
            },
          ]}
        />
      </Section>
    </>
  )
}

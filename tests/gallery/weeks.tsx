/**
 * The pictures of the weeks ahead, with invented counts.
 */
import { TightCalendar } from '#app/_ui/calendar/tight-calendar.tsx'
import { Fan } from '#app/_ui/fan/fan.tsx'
import { FanIndex } from '#app/_ui/fan/small-fan.tsx'
import { Answer, Section } from '#app/_ui/section.tsx'
import { FAN_WORDS } from '#lib/words/fan.ts'
import { BARE, FLIGHTS, ROOMY, SHORT, TODAY } from './samples.ts'

export function Weeks() {
  return (
    <>
      <Answer
        reference="Long Dune"
        place="flight aviaries"
        sentence="11 tight days from 10 Jan to 20 Jan. The worst is 17 Jan: 36 % chance of one bird too many"
        basis="A day is tight when the chance of being short is 20 % or more. Forecast made today at 06:10."
      />
      <Section id="fan" head="Animals and places">
        <Fan data={FLIGHTS} tightFrom={0.2} />
      </Section>
      <Section
        id="calendar"
        head="Tight days"
        note="The figure is the chance, in per cent, of being short that day."
      >
        <TightCalendar
          todayDay={TODAY}
          shortByDay={SHORT}
          tightFrom={0.2}
          notes={[
            { day: TODAY + 40, text: 'North flight shut from Mon 4 Jan.' },
            { day: TODAY + 52, text: 'Kestrels Samphire 41 and Rush 12, sparrowhawk Dulse 7 ready to fly.' },
            { day: TODAY + 57, text: 'North flight back on Thu 21 Jan.' },
          ]}
        />
      </Section>
      <Section id="index" head="Everywhere else" note={FAN_WORDS.smallKey}>
        <FanIndex
          caption="Everywhere else"
          tightFrom={0.2}
          columns={['Hospital cages', 'Isolation', 'Sheltered aviaries', 'Flight aviaries', 'Pools and pens']}
          rows={['Hollin Ness', 'Withy Mead', 'Long Dune'].map((centre, i) => ({
            centre,
            cells: [
              { href: '#a', data: ROOMY },
              undefined,
              { href: '#b', data: BARE },
              { href: '#c', data: FLIGHTS, isHere: i === 2 },
              i === 1 ? undefined : { href: '#d', data: ROOMY },
            ],
          }))}
        />
      </Section>
      <Section id="roomy" head="Two hundred places">
        <Fan data={ROOMY} tightFrom={0.2} />
      </Section>
      <Section id="bare" head="Fourteen days, one place">
        <Fan data={BARE} tightFrom={0.2} />
      </Section>
    </>
  )
}

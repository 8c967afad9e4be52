import { TightCalendar } from '#app/_ui/calendar/tight-calendar.tsx'
import { Fan } from '#app/_ui/fan/fan.tsx'
import { Section } from '#app/_ui/section.tsx'
import type { ClassInFull, Made } from '#lib/service/weeks.ts'
import { bracketWords, quietWords, WEEKS } from '#lib/words/weeks.ts'
import { closureLine, whyTightWords } from '#lib/words/weeks-why.ts'
import { Easing } from './easing.tsx'
import { fanData } from './fan-data.ts'
import { Sizes } from './sizes.tsx'
import { ThroughDay } from './through-day.tsx'
import { Who } from './who.tsx'

type Props = {
  readonly full: ClassInFull
  readonly made: Made
  readonly mayOpen: (centreId: number | null) => boolean
}

/** From here the calendar writes a chance; below it a month of bare dates would say less than a sentence. */
const WRITTEN_FROM = 0.1

/** A class: its fan, its sizes, its tight days and why, who needs the places, what would ease it. */
export function ClassInFullView({ full, made, mayOpen }: Props) {
  const { shown, fan, shut, bracket, notes, secondCount } = full
  const { today, tightFrom } = made
  return (
    <>
      <Section id="fan" head={WEEKS.fan} note={`${WEEKS.pastNote} ${WEEKS.readyNote}`} strong>
        <Fan data={fanData(fan)} tightFrom={tightFrom} />
        <p className="fan-key">{WEEKS.placeIsEnclosure}</p>
        {bracket !== undefined && <p className="fan-key">{bracketWords(bracket.lower, bracket.upper)}</p>}
        {shut.length > 0 && (
          <>
            <h3 className="weeks-after">{WEEKS.shut}</h3>
            <ul className="lines">
              {shut.map(one => (
                <li key={`${one.enclosure}-${one.from}`}>
                  {closureLine(one.enclosure, one.reason, one.until)}
                </li>
              ))}
            </ul>
          </>
        )}
      </Section>
      <Sizes sizes={full.sizes} housing={shown.housing} />
      {secondCount !== undefined && <ThroughDay second={secondCount} tightFrom={tightFrom} />}
      <Section id="tight" head={WEEKS.tight} note={WEEKS.tightNote}>
        {shown.worst.chance < WRITTEN_FROM ? (
          <p className="weeks-said">{quietWords(WRITTEN_FROM, today + made.days - 1)}</p>
        ) : (
          <TightCalendar
            todayDay={today}
            shortByDay={fan.shortByDay}
            tightFrom={tightFrom}
            notes={notes.map(({ day, why }) => ({ day, text: whyTightWords(why) }))}
          />
        )}
      </Section>
      <Who needers={full.needers} worstDay={shown.worst.day} today={today} mayOpen={mayOpen} />
      <Easing easings={full.easings} />
    </>
  )
}

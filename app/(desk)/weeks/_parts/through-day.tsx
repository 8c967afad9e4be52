import { Fan } from '#app/_ui/fan/fan.tsx'
import { Section } from '#app/_ui/section.tsx'
import type { SecondCount } from '#lib/service/weeks.ts'
import { throughSentence, WEEKS } from '#lib/words/weeks.ts'
import { fanData } from './fan-data.ts'

type Props = { readonly second: SecondCount; readonly tightFrom: number }

/** The second count of intensive care: in at last midnight plus the arrivals of the day. */
export function ThroughDay({ second, tightFrom }: Props) {
  const { worst, fan } = second
  return (
    <Section id="through" head={WEEKS.through} note={WEEKS.throughNote}>
      <p className="weeks-said">{throughSentence(worst.atMidnight, worst.chance, worst.day)}</p>
      <Fan data={fanData(fan)} tightFrom={tightFrom} />
    </Section>
  )
}

import { Section } from '#app/_ui/section.tsx'
import type { NotIn, WeeksShown } from '#lib/service/weeks.ts'
import { unhousedSentence, unplannedSentence, WEEKS } from '#lib/words/weeks.ts'

/** Animals that no forecast or no class holds, by name. */
export function NotInForecast({ shown }: { readonly shown: WeeksShown }) {
  return (
    <Section id="not-in" head={WEEKS.notIn} note={WEEKS.notInNote}>
      <p className="weeks-said">{unplannedSentence(shown.unplanned.length)}</p>
      <Names animals={shown.unplanned} />
      {shown.unhoused.length > 0 && (
        <>
          <p className="weeks-said weeks-after">{unhousedSentence(shown.unhoused.length)}</p>
          <Names animals={shown.unhoused} />
        </>
      )}
    </Section>
  )
}

function Names({ animals }: { readonly animals: readonly NotIn[] }) {
  if (animals.length === 0) return null
  return (
    <ul className="lines">
      {animals.map(({ reference, species }) => (
        <li key={reference}>
          <b>{species}</b> {reference}
        </li>
      ))}
    </ul>
  )
}

import { Notice } from '#app/_ui/notice.tsx'
import { Section } from '#app/_ui/section.tsx'
import { OneButton } from '#app/(desk)/calls/_parts/one-button.tsx'
import type { Round } from '#lib/service/round.ts'
import { meanwhileWords, TAP, tappedBy } from '#lib/words/round-entry.ts'
import { settled } from '../actions.ts'

/** What was tapped after somebody else had recorded otherwise: a person says which is right. */
export function TwoVersions({ round, as }: { readonly round: Round; readonly as: string }) {
  if (round.waiting.length === 0) return null
  const { zone, centre, mayCount } = round
  return (
    <Section id="two-versions" head={TAP.twoVersions} note={TAP.twoVersionsNote} strong>
      {round.waiting.map(({ tapped, meanwhile }) => {
        const fields = { centreId: String(centre.id), entryId: String(tapped.id), as }
        return (
          <Notice
            key={tapped.id}
            kind="check-this"
            sentence={tapped.reference ?? centre.name}
            kept={
              <ul>
                <li>{tappedBy(tapped, { by: tapped.by, at: tapped.happenedAt }, zone)}</li>
                <li>{meanwhileWords(meanwhile, zone)}</li>
              </ul>
            }
            todo={
              mayCount && (
                <>
                  <OneButton
                    action={settled}
                    text={TAP.tapIsRight}
                    fields={{ ...fields, version: 'tapped' }}
                  />
                  <OneButton action={settled} text={TAP.leave} fields={{ ...fields, version: 'standing' }} />
                </>
              )
            }
          />
        )
      })}
    </Section>
  )
}

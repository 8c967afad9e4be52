import { Section } from '#app/_ui/section.tsx'
import { OneButton } from '#app/(desk)/calls/_parts/one-button.tsx'
import type { MoveAside } from '#lib/service/move-aside.ts'
import { paths } from '#lib/web/paths.ts'
import { ASIDE, asideHead, asideWords } from '#lib/words/move-aside.ts'
import { takenUp } from '../actions.ts'

type Props = { readonly aside: readonly MoveAside[]; readonly mayArrange: boolean; readonly zone: string }

/** Moves that somebody set aside: who, when, why, until when. */
export function Aside({ aside, mayArrange, zone }: Props) {
  if (aside.length === 0) return null
  return (
    <Section id="aside" head={ASIDE.head} note={ASIDE.note}>
      <ol className="asides">
        {aside.map(one => (
          <li key={one.id}>
            <p>
              <a href={paths.casualty(one.reference)}>{asideHead(one)}</a>
              <span className="sub">{asideWords(one, zone)}</span>
            </p>
            {mayArrange && (
              <OneButton
                action={takenUp}
                weight="plain"
                text={ASIDE.takeUp}
                fields={{ asideId: String(one.id) }}
              />
            )}
          </li>
        ))}
      </ol>
    </Section>
  )
}

import type { Metadata } from 'next'
import { Answer, Section } from '#app/_ui/section.tsx'
import { Desk } from '#app/(desk)/_parts/desk.tsx'
import { may } from '#lib/authz/demand.ts'
import { getSetupCounts } from '#lib/service/setup/index-page.ts'
import { load } from '#lib/web/load.ts'
import { currentDay } from '#lib/web/network.ts'
import { paths } from '#lib/web/paths.ts'
import { requireActor } from '#lib/web/session.ts'
import { SETUP } from '#lib/words/setup.ts'
import { indexLine, SETUP_NOUNS, SETUP_PAGE } from '#lib/words/setup-page.ts'

export const metadata: Metadata = { title: SETUP.heading }

export default async function SetupPage() {
  const [actor, { now }] = await Promise.all([requireActor(), currentDay()])
  const counts = await load(getSetupCounts(actor, now))
  const nouns = SETUP_NOUNS.filter(noun => noun !== 'people' || may(actor, 'people.read'))
  return (
    <Desk current="setup">
      <Answer reference={SETUP.heading} sentence={SETUP_PAGE.indexAnswer} basis={SETUP_PAGE.indexBasis} />
      <Section id="words" head={SETUP_PAGE.words} strong>
        <ul className="index-words">
          {nouns.map(noun => (
            <li key={noun}>
              <a href={paths.setupList(noun)}>{SETUP[noun]}</a>
              <span>{indexLine(noun, counts)}</span>
            </li>
          ))}
        </ul>
      </Section>
    </Desk>
  )
}

import type { ReactNode } from 'react'
import { Notice } from '#app/_ui/notice.tsx'
import { Desk } from '#app/(desk)/_parts/desk.tsx'
import { may } from '#lib/authz/demand.ts'
import { paths, type SetupNoun } from '#lib/web/paths.ts'
import { requireActor } from '#lib/web/session.ts'
import { SETUP } from '#lib/words/setup.ts'
import { keptWords, SETUP_NOUNS, SETUP_PAGE } from '#lib/words/setup-page.ts'

type FrameProps = {
  readonly noun: SetupNoun
  /** The answer of the page, without a full stop. */
  readonly sentence: string
  readonly basis?: ReactNode
  /** What was just done here: the word after a redirect. */
  readonly kept?: string | undefined
  readonly children: ReactNode
}

/** Every page of setup but its index: the index of words at the left, the answer and its matter beside it. */
export async function SetupFrame({ noun, sentence, basis, kept, children }: FrameProps) {
  const actor = await requireActor()
  const nouns = SETUP_NOUNS.filter(one => one !== 'people' || may(actor, 'people.read'))
  const done = keptWords(kept)
  return (
    <Desk current="setup">
      <div className="setup">
        <nav className="setup-index" aria-label={SETUP_PAGE.index}>
          <p className="setup-up">
            <a href={paths.setup()}>{SETUP.heading}</a>
          </p>
          <ul>
            {nouns.map(one => (
              <li key={one}>
                <a href={paths.setupList(one)} aria-current={one === noun ? 'page' : undefined}>
                  {SETUP[one]}
                </a>
              </li>
            ))}
          </ul>
        </nav>
        <div className="setup-matter">
          <div className="setup-head">
            <h1>{sentence}</h1>
            {basis !== undefined && <div className="basis">{basis}</div>}
          </div>
          {done !== undefined && <Notice kind="done" role="status" sentence={done} />}
          {children}
        </div>
      </div>
    </Desk>
  )
}

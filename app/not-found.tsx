import type { Metadata } from 'next'
import { paths } from '#lib/web/paths.ts'
import { MISSING_WORDS, PAGE_WORDS } from '#lib/words/page.ts'
import { Actions, ButtonLink } from './_ui/button.tsx'
import { DemoLine } from './_ui/demo-line.tsx'
import { Answer } from './_ui/section.tsx'
import { Skips } from './_ui/skips.tsx'

export const metadata: Metadata = { title: MISSING_WORDS.title }

export default function NotFound() {
  return (
    <>
      <Skips />
      <main id="page" className="page" tabIndex={-1}>
        <DemoLine />
        <Answer place={MISSING_WORDS.title} sentence={MISSING_WORDS.heading} basis={MISSING_WORDS.basis}>
          <Actions>
            <ButtonLink href={paths.casualties()}>{MISSING_WORDS.toCasualties}</ButtonLink>
            <ButtonLink weight="plain" href={paths.front()}>
              {PAGE_WORDS.toFront}
            </ButtonLink>
          </Actions>
        </Answer>
      </main>
    </>
  )
}

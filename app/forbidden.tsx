import type { Metadata } from 'next'
import { paths } from '#lib/web/paths.ts'
import { FORBIDDEN_WORDS, PAGE_WORDS } from '#lib/words/page.ts'
import { Actions, ButtonLink } from './_ui/button.tsx'
import { DemoLine } from './_ui/demo-line.tsx'
import { Answer } from './_ui/section.tsx'
import { Skips } from './_ui/skips.tsx'

export const metadata: Metadata = { title: FORBIDDEN_WORDS.title }

export default function Forbidden() {
  return (
    <>
      <Skips />
      <main id="page" className="page" tabIndex={-1}>
        <DemoLine />
        <Answer
          place={FORBIDDEN_WORDS.title}
          sentence={FORBIDDEN_WORDS.heading}
          basis={FORBIDDEN_WORDS.basis}
        >
          <Actions>
            <ButtonLink href={paths.front()}>{PAGE_WORDS.toFront}</ButtonLink>
          </Actions>
        </Answer>
      </main>
    </>
  )
}

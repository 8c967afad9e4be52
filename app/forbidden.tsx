import type { Metadata } from 'next'
import Link from 'next/link'
import { paths } from '#lib/web/paths.ts'
import { FORBIDDEN_WORDS, PAGE_WORDS } from '#lib/words/page.ts'

export const metadata: Metadata = { title: FORBIDDEN_WORDS.title }

export default function Forbidden() {
  return (
    <main className="page" id="page">
      <header className="lede">
        <p className="tag">{FORBIDDEN_WORDS.title}</p>
        <h1>{FORBIDDEN_WORDS.heading}</h1>
        <p className="basis">{FORBIDDEN_WORDS.basis}</p>
        <p className="more do">
          <Link className="btn" href={paths.front()}>
            {PAGE_WORDS.toFront}
          </Link>
        </p>
      </header>
    </main>
  )
}

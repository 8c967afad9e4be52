import type { Metadata } from 'next'
import Link from 'next/link'
import { paths } from '#lib/web/paths.ts'
import { MISSING_WORDS, PAGE_WORDS } from '#lib/words/page.ts'

export const metadata: Metadata = { title: MISSING_WORDS.title }

export default function NotFound() {
  return (
    <main className="page" id="page">
      <header className="lede">
        <p className="tag">{MISSING_WORDS.title}</p>
        <h1>{MISSING_WORDS.heading}</h1>
        <p className="basis">{MISSING_WORDS.basis}</p>
        <p className="more do">
          <Link className="btn" href={paths.casualties()}>
            {MISSING_WORDS.toCasualties}
          </Link>
          <Link className="btn plain" href={paths.front()}>
            {PAGE_WORDS.toFront}
          </Link>
        </p>
      </header>
    </main>
  )
}

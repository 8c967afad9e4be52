'use client'

import { MISTAKE_WORDS, mistakeNumber, PAGE_WORDS } from '#lib/words/page.ts'

type Props = { readonly error: Error & { digest?: string }; readonly reset: () => void }

export default function ErrorPage({ error, reset }: Props) {
  return (
    <main className="page" id="page">
      <header className="lede">
        <p className="tag">{MISTAKE_WORDS.title}</p>
        <h1>{MISTAKE_WORDS.heading}</h1>
        <p className="basis">
          {MISTAKE_WORDS.basis} {error.digest === undefined ? null : mistakeNumber(error.digest)}
        </p>
        <p className="more do">
          <button type="button" className="btn" onClick={reset}>
            {PAGE_WORDS.again}
          </button>
          <a className="btn plain" href="/">
            {PAGE_WORDS.toFront}
          </a>
        </p>
      </header>
    </main>
  )
}

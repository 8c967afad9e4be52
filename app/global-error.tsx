'use client'

import './_ui/look.css'
import { MISTAKE_WORDS, mistakeNumber, PAGE_WORDS } from '#lib/words/page.ts'

/** Shown when the frame itself failed, so it brings its own. */
export default function GlobalError({ error }: { readonly error: Error & { digest?: string } }) {
  return (
    <html lang="en">
      <body>
        <title>{MISTAKE_WORDS.title}</title>
        <main className="page">
          <header className="lede">
            <h1>{MISTAKE_WORDS.heading}</h1>
            <p className="basis">
              {MISTAKE_WORDS.basis} {error.digest === undefined ? null : mistakeNumber(error.digest)}
            </p>
            <p className="more">
              <a className="btn" href="/">
                {PAGE_WORDS.toFront}
              </a>
            </p>
          </header>
        </main>
      </body>
    </html>
  )
}

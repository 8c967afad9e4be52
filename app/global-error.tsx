'use client'

import './_ui/look.css'
import { MISTAKE_WORDS } from '#lib/words/page.ts'
import { Mistake } from './_ui/mistake.tsx'

/** Shown when the frame itself failed, so it brings its own. */
export default function GlobalError({ error }: { readonly error: Error & { digest?: string } }) {
  return (
    <html lang="en">
      <body>
        <title>{MISTAKE_WORDS.title}</title>
        <main className="page">
          <Mistake digest={error.digest} />
        </main>
      </body>
    </html>
  )
}

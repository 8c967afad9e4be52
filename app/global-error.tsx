'use client'

import './_ui/look.css'
import { MISTAKE_WORDS } from '#lib/words/page.ts'
import { Mistake } from './_ui/mistake.tsx'
import { Skips } from './_ui/skips.tsx'

/** Shown when the frame itself failed, so it brings its own. */
export default function GlobalError({ error }: { readonly error: Error & { digest?: string } }) {
  return (
    <html lang="en">
      <body>
        <title>{MISTAKE_WORDS.title}</title>
        <Skips />
        <main id="page" className="page" tabIndex={-1}>
          <Mistake digest={error.digest} />
        </main>
      </body>
    </html>
  )
}

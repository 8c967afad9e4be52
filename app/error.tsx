'use client'

import { DemoLine } from './_ui/demo-line.tsx'
import { Mistake } from './_ui/mistake.tsx'
import { Skips } from './_ui/skips.tsx'

type Props = { readonly error: Error & { digest?: string }; readonly reset: () => void }

export default function ErrorPage({ error, reset }: Props) {
  return (
    <>
      <Skips />
      <main id="page" className="page" tabIndex={-1}>
        <DemoLine />
        <Mistake digest={error.digest} again={reset} />
      </main>
    </>
  )
}

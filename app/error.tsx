'use client'

import { DemoLine } from './_ui/demo-line.tsx'
import { Mistake } from './_ui/mistake.tsx'

type Props = { readonly error: Error & { digest?: string }; readonly reset: () => void }

export default function ErrorPage({ error, reset }: Props) {
  return (
    <main className="page" id="page">
      <DemoLine />
      <Mistake digest={error.digest} again={reset} />
    </main>
  )
}

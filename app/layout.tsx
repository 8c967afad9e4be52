import type { Metadata, Viewport } from 'next'
import { connection } from 'next/server'
import type { ReactNode } from 'react'
import './_ui/look.css'
import { isDemo } from '#lib/web/demo.ts'
import { PAGE_WORDS } from '#lib/words/page.ts'

export const metadata: Metadata = {
  title: { default: PAGE_WORDS.name, template: `%s · ${PAGE_WORDS.name}` },
  description: PAGE_WORDS.description,
  robots: { index: false, follow: false },
  // Phones would turn references and weights into links to ring.
  formatDetection: { telephone: false },
}

export const viewport: Viewport = { width: 'device-width', initialScale: 1, colorScheme: 'light dark' }

export default async function RootLayout({ children }: { readonly children: ReactNode }) {
  // A page made ahead of time would carry no nonce.
  await connection()
  return (
    <html lang="en" data-demo={isDemo() ? '' : undefined}>
      <body>{children}</body>
    </html>
  )
}

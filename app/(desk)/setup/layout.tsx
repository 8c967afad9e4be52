import type { ReactNode } from 'react'
import './setup.css'

/** Setup's own rules of look; each page asks for its own permission. */
export default function SetupLayout({ children }: { readonly children: ReactNode }) {
  return children
}

import type { ReactNode } from 'react'

/** What is long on a phone: folded there until it is asked for, open on wide screens and on paper. */
export function Fold({ label, children }: { readonly label: string; readonly children: ReactNode }) {
  return (
    <details className="fold">
      <summary>{label}</summary>
      {children}
    </details>
  )
}

import type { Route } from 'next'

export type Way = { readonly href: Route; readonly text: string; readonly isCurrent: boolean }

/** The same page for other days or other housing, as words. */
export function Ways({ label, ways }: { readonly label: string; readonly ways: readonly Way[] }) {
  return (
    <nav className="ways" aria-label={label}>
      <span aria-hidden="true">{label}</span>
      <ul>
        {ways.map(way => (
          <li key={way.href}>
            <a href={way.href} aria-current={way.isCurrent ? 'page' : undefined}>
              {way.text}
            </a>
          </li>
        ))}
      </ul>
    </nav>
  )
}

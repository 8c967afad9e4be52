import { SHELL_WORDS } from '#lib/words/shell.ts'

export type SkipLink = { readonly href: `#${string}`; readonly text: string }

/** First of all on a page, seen once the keyboard is on it: past the head to the matter. */
export function Skips({ more = [] }: { readonly more?: readonly SkipLink[] }) {
  return (
    <div className="skips">
      {[{ href: '#page', text: SHELL_WORDS.skipToContent }, ...more].map(skip => (
        <a key={skip.href} href={skip.href}>
          {skip.text}
        </a>
      ))}
    </div>
  )
}

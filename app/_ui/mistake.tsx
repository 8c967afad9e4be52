import { MISTAKE_WORDS, mistakeNumber, PAGE_WORDS } from '#lib/words/page.ts'
import { Actions, Button, ButtonLink } from './button.tsx'
import { Answer } from './section.tsx'

type MistakeProps = {
  /** The number under which it was written down. */
  readonly digest?: string | undefined
  /** Draws the page anew; left out where nothing can be. */
  readonly again?: () => void
}

/** What a page says when something of ours broke: nothing internal, a number to quote. */
export function Mistake({ digest, again }: MistakeProps) {
  const quote = digest === undefined ? '' : ` ${mistakeNumber(digest)}`
  return (
    <Answer
      place={MISTAKE_WORDS.title}
      sentence={MISTAKE_WORDS.heading}
      basis={`${MISTAKE_WORDS.basis}${quote}`}
    >
      <Actions>
        {again === undefined ? null : (
          <Button type="button" onClick={again}>
            {PAGE_WORDS.again}
          </Button>
        )}
        <ButtonLink weight="plain" href="/">
          {PAGE_WORDS.toFront}
        </ButtonLink>
      </Actions>
    </Answer>
  )
}

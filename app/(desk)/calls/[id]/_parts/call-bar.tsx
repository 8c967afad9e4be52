import { Button } from '#app/_ui/button.tsx'
import { bestSoFar, DESK } from '#lib/words/desk.ts'

type Props = { readonly best: string | undefined; readonly mayTake: boolean }

/** In sight wherever the sheet is: the answer so far on a phone, and the way to the next call everywhere. */
export function CallBar({ best, mayTake }: Props) {
  return (
    <div className="call-bar">
      {best !== undefined && (
        <p className="best-so-far">
          <span>{bestSoFar(best)}</span>
          <a href="#options">{DESK.seeOptions}</a>
        </p>
      )}
      {mayTake && (
        <Button form="call" name="do" value="next" keys="Shift F2">
          {DESK.putAsideAndNext}
        </Button>
      )}
    </div>
  )
}

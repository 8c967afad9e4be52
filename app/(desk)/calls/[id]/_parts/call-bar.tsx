import { Button } from '#app/_ui/button.tsx'
import { DESK } from '#lib/words/desk.ts'
import { ChangedLine, Shown } from './standing.tsx'

type Props = { readonly hasBest: boolean; readonly mayTake: boolean }

/** In sight wherever the sheet is: the answer so far on a phone, and the way to the next call everywhere. */
export function CallBar({ hasBest, mayTake }: Props) {
  return (
    <div className="call-bar">
      {hasBest && (
        <p className="best-so-far">
          <span>
            <Shown part="best" />
          </span>
          <a href="#options">{DESK.seeOptions}</a>
        </p>
      )}
      <ChangedLine />
      {mayTake && (
        <Button form="call" name="do" value="next" keys="Shift F2">
          {DESK.putAsideAndNext}
        </Button>
      )}
    </div>
  )
}

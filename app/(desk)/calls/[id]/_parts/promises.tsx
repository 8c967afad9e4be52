import { Button } from '#app/_ui/button.tsx'
import { SelectField, TextField } from '#app/_ui/field.tsx'
import type { OnTheLine } from '#lib/service/call.ts'
import { CALL } from '#lib/words/call.ts'
import { DESK } from '#lib/words/desk.ts'

const MINUTES = [10, 20, 30, 60, 120, 480]

type Props = { readonly onTheLine: readonly OnTheLine[]; readonly me: number }

/** What else can be done with a call: rank again, put it aside, promise to ring back. */
export function Promises({ onTheLine, me }: Props) {
  return (
    <div className="promises">
      <div className="do">
        <Button name="do" value="rank">
          {CALL.rank}
        </Button>
        <Button name="do" value="park" weight="plain">
          {CALL.park}
        </Button>
      </div>
      <details>
        <summary>{CALL.callBack}</summary>
        <SelectField
          name="callBackMinutes"
          label={DESK.callBackMinutes}
          defaultValue="20"
          options={MINUTES.map(minutes => ({
            value: String(minutes),
            text: minutes < 60 ? `${minutes} min` : `${minutes / 60} h`,
          }))}
        />
        <SelectField
          name="callBackOwner"
          label={DESK.callBackOwner}
          defaultValue={String(me)}
          options={onTheLine.map(({ id, name }) => ({ value: String(id), text: name }))}
        />
        <TextField name="callBackWhat" label={DESK.callBackWhat} maxLength={200} autoComplete="off" />
        <Button name="do" value="call-back">
          {DESK.promise}
        </Button>
      </details>
    </div>
  )
}

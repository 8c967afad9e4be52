import { Notice } from '#app/_ui/notice.tsx'
import type { CallFacts } from '#lib/domain/call-facts.ts'
import type { Caution } from '#lib/domain/caution.ts'
import type { Answered } from '#lib/service/option.ts'
import { responsibleWords, suspectSteps } from '#lib/words/call.ts'
import { cautionWords, suspicionWords } from '#lib/words/caution.ts'

type Props = {
  readonly answered: Answered
  readonly facts: CallFacts
  readonly authority: { readonly name: string; readonly phone: string }
}

/** What has to be said before anything is done. */
export function CautionsFirst({ answered, facts, authority }: Props) {
  const first = answered.cautions.filter(caution => caution.isBeforeOptions)
  const { notifiable } = answered
  if (first.length === 0) return null
  return (
    <div className="cautions" role="status">
      {first.map(caution => (
        <OneCaution key={caution.id} caution={caution} extra={extraOf(caution, facts)} />
      ))}
      {notifiable.state === 'suspected' && (
        <Notice
          inside
          kind="first"
          sentence={suspicionWords(notifiable.disease, notifiable.because)}
          kept={
            <ul>
              {suspectSteps(authority).map(step => (
                <li key={step}>{step}</li>
              ))}
            </ul>
          }
        />
      )}
    </div>
  )
}

/** What binds later or less: on the way, at the door. */
export function CautionsAfter({ answered }: { readonly answered: Answered }) {
  const rest = answered.cautions.filter(caution => !caution.isBeforeOptions)
  return (
    <div className="cautions">
      {rest.map(caution => {
        const { head, say, mark } = cautionWords(caution)
        return (
          <p key={caution.id} className="caution">
            <b>{head}.</b> {say} <small>{mark}</small>
          </p>
        )
      })}
    </div>
  )
}

function OneCaution({ caution, extra }: { readonly caution: Caution; readonly extra: string }) {
  const { head, say, mark } = cautionWords(caution)
  return (
    <Notice
      inside
      kind={caution.id === 'notifiable-suspect' || caution.id === 'stay-away' ? 'first' : 'mind'}
      sentence={head}
      kept={
        <>
          {say} {extra} <small>{mark}</small>
        </>
      }
    />
  )
}

function extraOf({ id }: Caution, { dangers }: CallFacts): string {
  return id === 'stay-away' ? responsibleWords(dangers) : ''
}

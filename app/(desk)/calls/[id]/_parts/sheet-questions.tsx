import { ChoiceGroup } from '#app/_ui/choice.tsx'
import { TextField } from '#app/_ui/field.tsx'
import { type CallFacts, DANGERS } from '#lib/domain/call-facts.ts'
import { TOLD_MAX } from '#lib/domain/call-limits.ts'
import { ANSWERS, isOpenQuestion, isYesNoQuestion, type Question } from '#lib/domain/question.ts'
import type { SheetOffer } from '#lib/service/call-sheet.ts'
import { dangerWords } from '#lib/words/call.ts'
import { DESK } from '#lib/words/desk.ts'
import { answerWords, questionWords } from '#lib/words/question.ts'

type Props = { readonly facts: CallFacts; readonly offer: SheetOffer }

/** What cannot wait: danger where it is, then the questions that come before everything else. */
export function AskFirst({ facts, offer }: Props) {
  return (
    <fieldset className="group">
      <legend>{DESK.cannotWait}</legend>
      <ChoiceGroup
        name="dangers[]"
        legend={DESK.dangers}
        kind="many"
        columns={2}
        chosen={facts.dangers}
        choices={DANGERS.map(danger => ({ value: danger, label: dangerWords(danger) }))}
      />
      {offer.questionsFirst.map(question => (
        <OneQuestion key={question} question={question} facts={facts} />
      ))}
    </fieldset>
  )
}

/** What the conditions ask. */
export function Questions({ facts, offer }: Props) {
  if (offer.questions.length === 0) return null
  return (
    <fieldset className="group">
      <legend>{DESK.moreFacts}</legend>
      {offer.questions.map(question => (
        <OneQuestion key={question} question={question} facts={facts} />
      ))}
    </fieldset>
  )
}

function OneQuestion({ question, facts }: { readonly question: Question; readonly facts: CallFacts }) {
  if (isOpenQuestion(question)) {
    return (
      <TextField
        name={`told.${question}`}
        label={questionWords(question)}
        defaultValue={facts.told[question] ?? ''}
        maxLength={TOLD_MAX}
        autoComplete="off"
      />
    )
  }
  if (!isYesNoQuestion(question)) return null
  const answer = facts.answers[question]
  return (
    <ChoiceGroup
      name={`answers.${question}`}
      legend={questionWords(question)}
      kind="one"
      columns="row"
      chosen={answer === undefined ? [] : [answer]}
      choices={ANSWERS.map(one => ({ value: one, label: answerWords(one) }))}
    />
  )
}

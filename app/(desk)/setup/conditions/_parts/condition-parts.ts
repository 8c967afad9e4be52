import { CAUTIONS_OF_CONDITIONS } from '#lib/domain/caution.ts'
import { QUARANTINES } from '#lib/domain/condition.ts'
import {
  APPLIES_TO,
  CONDITION_KINDS,
  type ConditionValues,
  conditionFields,
} from '#lib/domain/condition-form.ts'
import { OPEN_QUESTIONS, YES_NO_QUESTIONS } from '#lib/domain/question.ts'
import { URGENCIES } from '#lib/domain/urgency.ts'
import { cautionSaid } from '#lib/words/caution.ts'
import { questionWords } from '#lib/words/question.ts'
import {
  appliesWords,
  CONDITION_PAGE,
  conditionKindWords,
  quarantineWords,
} from '#lib/words/setup-knowledge.ts'
import { SETUP_PAGE } from '#lib/words/setup-page.ts'
import { urgencyMeans, urgencyName } from '#lib/words/urgency.ts'
import { type Part, said, select, text } from '../../_parts/spec.ts'

/** What is asked about a condition. */
export function conditionParts(condition: ConditionValues | undefined): Part[] {
  return [namePart(condition), mapPart(condition), askPart(condition), cautionPart(condition)]
}

function namePart(condition: ConditionValues | undefined): Part {
  const { name, kind, words, appliesTo } = conditionFields
  return {
    id: 'what',
    head: CONDITION_PAGE.what,
    note: CONDITION_PAGE.wordsNote,
    fields: [
      text('name', name, condition?.name),
      { kind: 'area', name: 'words', ...said(words), start: condition?.words.join('; ') ?? '' },
      select(
        'kind',
        kind,
        condition?.kind,
        CONDITION_KINDS.map(one => ({ value: one, text: conditionKindWords(one) })),
        SETUP_PAGE.choose,
      ),
      select(
        'appliesTo',
        appliesTo,
        condition?.appliesTo,
        APPLIES_TO.map(one => ({ value: one, text: appliesWords(one) })),
        SETUP_PAGE.choose,
      ),
    ],
  }
}

function mapPart(condition: ConditionValues | undefined): Part {
  const fields = conditionFields
  return {
    id: 'maps',
    head: CONDITION_PAGE.maps,
    note: CONDITION_PAGE.mapsNote,
    fields: [
      {
        kind: 'choices',
        name: 'defaultUrgency',
        ...said(fields.defaultUrgency),
        many: false,
        start: condition === undefined ? [] : [condition.defaultUrgency],
        choices: URGENCIES.map(one => ({ value: one, label: urgencyName(one), sub: urgencyMeans(one) })),
      },
      text('markUrgency', fields.markUrgency, condition?.markUrgency ?? ''),
      select(
        'quarantine',
        fields.quarantine,
        condition?.quarantine,
        QUARANTINES.map(one => ({ value: one, text: quarantineWords(one) })),
        SETUP_PAGE.choose,
      ),
      text('markQuarantine', fields.markQuarantine, condition?.markQuarantine),
      text('mayNeedSurgeon', fields.mayNeedSurgeon, condition?.mayNeedSurgeon),
      text('markSurgeon', fields.markSurgeon, condition?.markSurgeon),
      {
        kind: 'area',
        name: 'deadlineNote',
        ...said(fields.deadlineNote),
        start: condition?.deadlineNote ?? '',
      },
      text('markDeadline', fields.markDeadline, condition?.markDeadline),
    ],
  }
}

function askPart(condition: ConditionValues | undefined): Part {
  return {
    id: 'asks',
    head: CONDITION_PAGE.asks,
    note: CONDITION_PAGE.asksNote,
    fields: [
      {
        kind: 'choices',
        name: 'asksFirst[]',
        ...said(conditionFields.asksFirst),
        many: true,
        start: condition?.asksFirst ?? [],
        choices: [...YES_NO_QUESTIONS, ...OPEN_QUESTIONS].map(one => ({
          value: one,
          label: questionWords(one),
        })),
        columns: 2,
      },
    ],
  }
}

function cautionPart(condition: ConditionValues | undefined): Part {
  return {
    id: 'cautions',
    head: CONDITION_PAGE.cautions,
    note: CONDITION_PAGE.cautionsNote,
    fields: [
      {
        kind: 'choices',
        name: 'cautions[]',
        ...said(conditionFields.cautions),
        many: true,
        start: condition?.cautions ?? [],
        choices: CAUTIONS_OF_CONDITIONS.map(one => {
          const { head, say } = cautionSaid(one)
          return { value: one, label: head, sub: say }
        }),
      },
      text('markCautions', conditionFields.markCautions, condition?.markCautions),
    ],
  }
}

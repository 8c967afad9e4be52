import { EmptyState } from '#app/_ui/notice.tsx'
import { Section } from '#app/_ui/section.tsx'
import { AsTable } from '#app/_ui/table.tsx'
import { Act } from '#app/(desk)/casualties/_parts/act.tsx'
import type { FieldSpec } from '#app/(desk)/casualties/_parts/field-spec.ts'
import { foundChoices } from '#lib/domain/check-result.ts'
import type { CasualtyCard } from '#lib/service/casualty.ts'
import { barWords, checkName } from '#lib/words/care.ts'
import { CARD, checkRest, dueWhen } from '#lib/words/casualty.ts'
import { CHANGE } from '#lib/words/casualty-change.ts'
import { CHECK_FORM, foundChoiceWords } from '#lib/words/check.ts'
import { markWords } from '#lib/words/mark.ts'
import { massWords } from '#lib/words/species.ts'
import { checked } from '../../actions.ts'
import { hiddenOf, whenFields } from './act-fields.ts'

type Check = CasualtyCard['checks'][number]

/** What has to be done for it: checks of its stage by their dates, and those of later stages below. */
export function Due({ card }: { readonly card: CasualtyCard }) {
  const open = card.checks.filter(check => check.doneAt === null && !check.isCalledOff)
  const stageNo = card.stageNow?.stage.no ?? 1
  const now = open.filter(check => check.stageNo <= stageNo)
  const later = open.filter(check => check.stageNo > stageNo)
  return (
    <Section id="due" head={CARD.due}>
      {now.length === 0 ? (
        <EmptyState sentence={CARD.nothingDue} coming={CARD.nothingDueComing} />
      ) : (
        <ul className="due">
          {now.map((check, at) => (
            <DueLine key={check.id} card={card} check={check} isFirst={at === 0} isLater={false} />
          ))}
        </ul>
      )}
      {later.length > 0 && (
        <AsTable label={CARD.later}>
          <ul className="due">
            {later.map(check => (
              <DueLine key={check.id} card={card} check={check} isFirst={false} isLater />
            ))}
          </ul>
        </AsTable>
      )}
    </Section>
  )
}

type LineProps = {
  readonly card: CasualtyCard
  readonly check: Check
  readonly isFirst: boolean
  readonly isLater: boolean
}

function DueLine({ card, check, isFirst, isLater }: LineProps) {
  const { today, species, can } = card
  const isMine = !isLater && check.dueOn !== null && check.dueOn <= today
  return (
    <li>
      <span className={isMine ? 'when mine' : 'when'}>{dueWhen(check.dueOn, today, isLater)}</span>
      <p>
        <b>{checkName(check.slug)}</b>, {check.what}
        <span className="sub">
          {checkRest(check.who, check.intervalDays)}; {barWords(check.requiredFor)}{' '}
          <small>({markWords(check.mark)})</small>
        </span>
      </p>
      {can.record && (
        <Act
          id={`check-${check.id}`}
          action={checked}
          title={CHANGE.recordIt}
          submit={CHANGE.record}
          isFirst={isFirst}
          hidden={{ ...hiddenOf(card), checkId: String(check.id) }}
          fields={fieldsOf(check, massWords(species.mass_g_low, species.mass_g_high))}
        />
      )}
    </li>
  )
}

function fieldsOf(check: Check, usual: string): FieldSpec[] {
  const grams: FieldSpec = {
    kind: 'number',
    name: 'grams',
    label: CHANGE.grams,
    unit: CHANGE.gramsUnit,
    hint: usual,
  }
  return [
    ...(check.slug === 'weigh' || check.slug === 'release-weight' ? [grams] : []),
    foundField(check.slug),
    ...(isSigned(check.slug)
      ? [
          {
            kind: 'text' as const,
            name: 'signedBy',
            label: CHECK_FORM.signedBy,
            hint: CHECK_FORM.signedByHint,
          },
        ]
      : []),
    ...(check.requiredFor === null ? [] : [longerField()]),
    { kind: 'text', name: 'result', label: CHANGE.result },
    ...whenFields('at'),
  ]
}

function foundField(slug: string): FieldSpec {
  const choices = foundChoices(slug)
  if (choices.length === 0) {
    return {
      kind: 'one',
      name: 'passed',
      label: CHECK_FORM.passed,
      columns: 'row',
      choices: [
        { value: 'yes', label: CHANGE.yes },
        { value: 'no', label: CHANGE.no },
      ],
    }
  }
  return {
    kind: 'one',
    name: 'found',
    label: CHECK_FORM.found,
    choices: choices.map(({ found, passed }) => ({ value: found, label: foundChoiceWords(found, passed) })),
  }
}

function isSigned(slug: string): boolean {
  return slug === 'vet-word' || foundChoices(slug).some(({ found }) => found === 'signed to stay')
}

function longerField(): FieldSpec {
  return {
    kind: 'number',
    name: 'moreDays',
    label: CHECK_FORM.moreDays,
    unit: CHECK_FORM.days,
    hint: CHECK_FORM.moreDaysHint,
  }
}

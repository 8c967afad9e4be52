import { type Fact, Facts, Section } from '#app/_ui/section.tsx'
import { OneButton } from '#app/(desk)/calls/_parts/one-button.tsx'
import { Act } from '#app/(desk)/casualties/_parts/act.tsx'
import type { Severity } from '#lib/domain/care-plan.ts'
import { AGES } from '#lib/domain/species.ts'
import type { CasualtyCard } from '#lib/service/casualty.ts'
import { paths } from '#lib/web/paths.ts'
import { aloneWords } from '#lib/words/care.ts'
import { CARD, foundWords, holdWords, leavesWords, reasonsWords, sinceInstant } from '#lib/words/casualty.ts'
import { ageChoice, CHANGE } from '#lib/words/casualty-change.ts'
import { gramsWords } from '#lib/words/casualty-happened.ts'
import { severityWords } from '#lib/words/condition.ts'
import { dayAndClock, whenWords } from '#lib/words/dates.ts'
import { markWords } from '#lib/words/mark.ts'
import { massWords } from '#lib/words/species.ts'
import { placeWords } from '#lib/words/who-is-where.ts'
import { givenBack, named, weighed } from '../../actions.ts'
import { hiddenOf, whenFields } from './act-fields.ts'
import { groupFact } from './group.tsx'
import { licenceFact } from './licence-fact.tsx'
import { releaseFacts } from './release-fact.tsx'
import { surgeryFact } from './surgery-fact.tsx'

/** What is known of it, with the forms that correct or add to a line beside that line. */
export function CardFacts({ card }: { readonly card: CasualtyCard }) {
  return (
    <Section id="facts" head={CARD.facts}>
      <Facts
        facts={[
          ...howItCame(card),
          ...groupFact(card),
          ...whereItIs(card),
          ...whatItIs(card),
          surgeryFact(card),
          ...releaseFacts(card),
          licenceFact(card),
        ]}
      />
    </Section>
  )
}

function howItCame({ head, zone }: CasualtyCard): Fact[] {
  const named = head.findings.map(one => {
    const how = one.severity === 'any' ? '' : severityWords(one.severity as Severity)
    return { name: one.name, how }
  })
  return [
    { term: CARD.found, value: foundWords(head.arrival.foundWords, dayAndClock(head.arrival.at, zone)) },
    { term: CARD.reasons, value: reasonsWords(named) },
    ...(head.mates.length === 0
      ? []
      : [
          {
            term: CARD.came,
            value: (
              <>
                {head.mates.map((mate, at) => (
                  <span key={mate}>
                    {at > 0 && ', '}
                    <a href={paths.casualty(mate)}>{mate}</a>
                  </span>
                ))}
              </>
            ),
          },
        ]),
  ]
}

function whereItIs(card: CasualtyCard): Fact[] {
  const { now, holds, zone, can } = card
  const place = (
    <>
      {placeWords(now)}
      {now.room !== null && `, ${now.room}`}
      <span className="sub">
        {sinceInstant(now.since, zone)}
        {now.keeperPhone !== null && `, ${CARD.phone.toLowerCase()} ${now.keeperPhone}`}
      </span>
      {now.leavesAt !== null && <span className="sub">{leavesWords(now.leavesAt, zone)}</span>}
    </>
  )
  return [
    { term: CARD.keeper, value: place },
    ...holds.map(hold => ({
      term: CARD.held,
      value: (
        <>
          {holdWords(hold, zone)}
          {can.record && (
            <OneButton
              action={givenBack}
              text={CARD.giveBack}
              weight="plain"
              fields={{ ...hiddenOf(card), holdId: String(hold.id) }}
            />
          )}
        </>
      ),
    })),
  ]
}

function whatItIs(card: CasualtyCard): Fact[] {
  const { lastWeight, species, zone, head, can, now, speciesChoices } = card
  const mayChange = can.record && now.keeper !== 'nobody'
  const usual = massWords(species.mass_g_low, species.mass_g_high)
  return [
    {
      term: CARD.weight,
      value: (
        <>
          {lastWeight === undefined
            ? CARD.noWeight
            : `${gramsWords(lastWeight.grams)}, ${whenWords(lastWeight.at, lastWeight.within, zone)}`}
          <span className="sub">
            {usual} ({markWords(species.mass_mark)})
          </span>
          {mayChange && (
            <Act
              id="weigh"
              action={weighed}
              title={CHANGE.weigh}
              submit={CHANGE.record}
              hidden={hiddenOf(card)}
              fields={[
                { kind: 'number', name: 'grams', label: CHANGE.grams, unit: CHANGE.gramsUnit, hint: usual },
                ...whenFields('at'),
              ]}
            />
          )}
        </>
      ),
    },
    {
      term: CARD.company,
      value: (
        <>
          {aloneWords(head.isAlone)}
          {mayChange && (
            <Act
              id="identify"
              action={named}
              title={CHANGE.identify}
              submit={CHANGE.record}
              hidden={hiddenOf(card)}
              fields={[
                {
                  kind: 'select',
                  name: 'species',
                  label: CHANGE.species,
                  start: head.species,
                  options: speciesChoices.map(({ slug, name, group }) => ({
                    value: slug,
                    text: name,
                    group,
                  })),
                },
                {
                  kind: 'one',
                  name: 'age',
                  label: CHANGE.age,
                  columns: 'row',
                  start: head.age,
                  choices: AGES.map(value => ({ value, label: ageChoice(value) })),
                },
              ]}
            />
          )}
        </>
      ),
    },
  ]
}

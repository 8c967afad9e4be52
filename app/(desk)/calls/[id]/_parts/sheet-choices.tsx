import { ChoiceGroup } from '#app/_ui/choice.tsx'
import { SelectField } from '#app/_ui/field.tsx'
import type { CallFacts } from '#lib/domain/call-facts.ts'
import type { SheetOffer } from '#lib/service/call-sheet.ts'
import { CALL } from '#lib/words/call.ts'
import { severityWords } from '#lib/words/condition.ts'
import { DESK } from '#lib/words/desk.ts'
import { NOTHING_FOUND, STAND_IN, speciesLine } from '#lib/words/species.ts'

type Props = { readonly facts: CallFacts; readonly offer: SheetOffer }

/** Boxes shown before "more"; the rest is one list, so that the sheet stays short. */
const CONDITIONS_FIRST = 6

/** Which animal, while the words could mean several; or what it looks like, when nobody can name it. */
export function AnimalChoices({ facts, offer }: Props) {
  if (offer.animalsOffered.length > 0) {
    return (
      <ChoiceGroup
        name="species"
        legend={DESK.whichAnimal}
        kind="one"
        chosen={[]}
        choices={offer.animalsOffered.map(one => ({
          value: one.slug,
          label: speciesLine(one),
          ...(one.is_stand_in && { sub: STAND_IN }),
        }))}
      />
    )
  }
  if (facts.species !== null && offer.species?.is_stand_in !== true) {
    return <input type="hidden" name="species" value={facts.species} />
  }
  return (
    <SelectField
      // What somebody else chose: a list keeps what it was first given.
      key={facts.species ?? ''}
      name="species"
      label={facts.animalTyped === '' ? DESK.unnamedHead : facts.species === null ? NOTHING_FOUND : STAND_IN}
      hint={CALL.standInNote}
      defaultValue={facts.species ?? ''}
      none={DESK.chooseLooks}
      options={offer.standIns.map(one => ({ value: one.slug, text: one.common_name }))}
    />
  )
}

/** Which place, while the words could mean several. */
export function PlaceChoices({ facts, offer }: Props) {
  if (offer.placesOffered.length === 0) {
    return facts.where?.placeId ? <input type="hidden" name="place" value={facts.where.placeId} /> : null
  }
  return (
    <ChoiceGroup
      name="place"
      legend={DESK.whichPlace}
      kind="one"
      chosen={[]}
      choices={offer.placesOffered.map(place => ({
        value: String(place.id),
        label: place.name,
        sub: place.kind,
      }))}
    />
  )
}

/** What is wrong, as boxes: what the words match first. Chosen conditions say how bad. */
export function ConditionChoices({ facts, offer }: Props) {
  const chosen = facts.conditions.map(one => one.slug)
  const first = offer.conditions.slice(0, Math.max(CONDITIONS_FIRST, chosen.length))
  const rest = offer.conditions.slice(first.length)
  return (
    <>
      <ChoiceGroup
        name="conditions[]"
        legend={CALL.wrong}
        aside={DESK.allThatFit}
        kind="many"
        columns={2}
        chosen={chosen}
        choices={first.map(one => ({ value: one.slug, label: one.name }))}
      />
      {rest.length > 0 && (
        <SelectField
          name="conditions[]"
          id="more-conditions"
          label={DESK.somethingElse}
          none={DESK.nothingElse}
          defaultValue=""
          options={rest.map(one => ({ value: one.slug, text: one.name }))}
        />
      )}
      {offer.severities.map(({ condition, name, severities, chosen: now }) => (
        <ChoiceGroup
          key={condition}
          name={`severity.${condition}`}
          legend={`${DESK.severity}: ${name.toLowerCase()}`}
          kind="one"
          columns="row"
          chosen={[now ?? '']}
          choices={[
            { value: '', label: severityWords('any') },
            ...severities
              .filter(one => one !== 'any')
              .map(one => ({ value: one, label: severityWords(one) })),
          ]}
        />
      ))}
    </>
  )
}

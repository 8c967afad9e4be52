import { ChoiceGroup, TickBox } from '#app/_ui/choice.tsx'
import { TextAreaField, TextField } from '#app/_ui/field.tsx'
import type { CallFacts } from '#lib/domain/call-facts.ts'
import {
  ANIMAL_TYPED_MAX,
  FINDER_NAME_MAX,
  FINDER_PHONE_MAX,
  HAPPENED_SINCE_MAX,
  NOTES_MAX,
  TOLD_MAX,
  WHERE_TYPED_MAX,
  WRONG_TYPED_MAX,
} from '#lib/domain/call-limits.ts'
import { AGES } from '#lib/domain/species.ts'
import { URGENCIES } from '#lib/domain/urgency.ts'
import type { SheetOffer } from '#lib/service/call-sheet.ts'
import { ageWords, CALL } from '#lib/words/call.ts'
import { DESK } from '#lib/words/desk.ts'
import { whereWords } from '#lib/words/place.ts'
import { speciesLine } from '#lib/words/species.ts'
import { URGENCY_SOURCE, urgencyBecause, urgencyMeans, urgencyName } from '#lib/words/urgency.ts'
import { AnimalChoices, ConditionChoices, PlaceChoices } from './sheet-choices.tsx'
import { AskFirst, Questions } from './sheet-questions.tsx'

type Props = { readonly facts: CallFacts; readonly offer: SheetOffer; readonly showsFinder: boolean }

/** The call sheet in the order of a call: what cannot wait, the three facts, then the rest. */
export function Sheet({ facts, offer, showsFinder }: Props) {
  return (
    <div className="sheet">
      <AskFirst facts={facts} offer={offer} />
      <ThreeFacts facts={facts} offer={offer} />
      <More facts={facts} offer={offer} />
      <Questions facts={facts} offer={offer} />
      {showsFinder && <Finder facts={facts} />}
      <fieldset className="group">
        <legend>{CALL.notes}</legend>
        <TextAreaField
          name="notes"
          label={CALL.notes}
          defaultValue={facts.notes}
          maxLength={NOTES_MAX}
          rows={3}
        />
      </fieldset>
    </div>
  )
}

function ThreeFacts({ facts, offer }: Omit<Props, 'showsFinder'>) {
  return (
    <div className="group">
      <TextField
        name="animalTyped"
        label={CALL.animal}
        defaultValue={facts.animalTyped}
        maxLength={ANIMAL_TYPED_MAX}
        list="animals"
        autoComplete="off"
        hint={offer.species === undefined ? CALL.animalHint : speciesLine(offer.species)}
      />
      <datalist id="animals">
        {offer.animalNames.map(name => (
          <option key={name} value={name} />
        ))}
      </datalist>
      <AnimalChoices facts={facts} offer={offer} />
      <TextField
        name="whereTyped"
        label={CALL.where}
        defaultValue={facts.whereTyped}
        maxLength={WHERE_TYPED_MAX}
        list="places"
        autoComplete="off"
        hint={facts.where === null ? CALL.whereHint : readWhere(facts.where)}
      />
      <datalist id="places">
        {offer.placeNames.map(name => (
          <option key={name} value={name} />
        ))}
      </datalist>
      <PlaceChoices facts={facts} offer={offer} />
      <TextField
        name="wrongTyped"
        label={CALL.wrong}
        defaultValue={facts.wrongTyped}
        maxLength={WRONG_TYPED_MAX}
        autoComplete="off"
        hint={CALL.wrongHint}
      />
      <ConditionChoices facts={facts} offer={offer} />
    </div>
  )
}

function More({ facts, offer }: Omit<Props, 'showsFinder'>) {
  const conditionName = (slug: string) => offer.conditions.find(one => one.slug === slug)?.name ?? slug
  const { urgency, because } = offer.urgency
  return (
    <div className="group">
      <ChoiceGroup
        name="urgency"
        legend={CALL.urgency}
        aside={`${urgencyName(urgency)} ${facts.urgency === null ? urgencyBecause(because, conditionName) : ''}`}
        kind="one"
        columns="row"
        chosen={facts.urgency === null ? [''] : [facts.urgency]}
        hint={`${urgencyMeans(urgency)}. ${URGENCY_SOURCE}`}
        choices={[
          { value: '', label: DESK.byWhatIsSaid },
          ...URGENCIES.map(one => ({ value: one, label: urgencyName(one) })),
        ]}
      />
      <ChoiceGroup
        name="age"
        legend={CALL.age}
        kind="one"
        columns="row"
        chosen={[facts.age]}
        choices={AGES.map(age => ({ value: age, label: ageWords(age) }))}
      />
      <TextField
        name="count"
        label={CALL.count}
        inputMode="numeric"
        defaultValue={String(facts.count)}
        maxLength={3}
        size={4}
      />
      <TickBox name="isBrood" label={CALL.brood} checked={facts.isBrood} />
      <TickBox name="seenOnly" label={CALL.seenOnly} checked={!facts.isCaught} />
      <TickBox name="noFinder" label={CALL.noFinder} checked={!facts.hasFinder} />
      <TextField
        name="happenedSince"
        label={CALL.since}
        hint={CALL.sinceHint}
        defaultValue={facts.happenedSince}
        maxLength={HAPPENED_SINCE_MAX}
        autoComplete="off"
      />
      <TextField
        name="vetName"
        label={CALL.vetAgrees}
        defaultValue={facts.vetKeeps?.vetName ?? ''}
        maxLength={FINDER_NAME_MAX}
        autoComplete="off"
      />
      {offer.asksOutside && (
        <>
          <TextField
            name="examinedBy"
            label={CALL.examinedOutside}
            defaultValue={facts.outsideExamination?.by ?? ''}
            maxLength={FINDER_NAME_MAX}
            autoComplete="off"
          />
          <TextField
            name="leaveWords"
            label={CALL.leaveRecorded}
            defaultValue={facts.authorityLeave?.words ?? ''}
            maxLength={TOLD_MAX}
            autoComplete="off"
          />
        </>
      )}
    </div>
  )
}

function Finder({ facts }: { readonly facts: CallFacts }) {
  return (
    <div className="group">
      <TextField
        name="finderName"
        label={CALL.finder}
        hint={CALL.finderHint}
        defaultValue={facts.finderName}
        maxLength={FINDER_NAME_MAX}
        autoComplete="off"
      />
      <TextField
        name="finderPhone"
        label={CALL.phone}
        type="tel"
        defaultValue={facts.finderPhone}
        maxLength={FINDER_PHONE_MAX}
        autoComplete="off"
      />
    </div>
  )
}

function readWhere(where: NonNullable<CallFacts['where']>): string {
  if (where.how === 'gazetteer') return where.name ?? ''
  return whereWords({
    how: where.how === 'plus code' ? 'plus code' : 'coordinates',
    latitude: where.latitude,
    longitude: where.longitude,
  })
}

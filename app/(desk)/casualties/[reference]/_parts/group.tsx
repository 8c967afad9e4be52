import type { Fact } from '#app/_ui/section.tsx'
import { Act } from '#app/(desk)/casualties/_parts/act.tsx'
import type { FieldSpec } from '#app/(desk)/casualties/_parts/field-spec.ts'
import type { CasualtyCard } from '#lib/service/casualty.ts'
import { paths } from '#lib/web/paths.ts'
import { CHANGE } from '#lib/words/casualty-change.ts'
import { countedWords, GROUP, joinableWords, placeOf } from '#lib/words/group.ts'
import { joined, parted, toldApart } from '../../actions.ts'
import { hiddenOf } from './act-fields.ts'

/** Who is counted with it, each with what it can be told by. */
export function groupFact({ batch, head }: CasualtyCard): Fact[] {
  if (batch.length < 2) return []
  const arrivals = new Set(batch.map(({ arrivalId }) => arrivalId)).size
  return [
    {
      term: GROUP.term,
      value: (
        <>
          {batch.map((one, at) => (
            <span key={one.id}>
              {at > 0 && ', '}
              {one.id === head.id ? (
                one.reference
              ) : (
                <a href={paths.casualty(one.reference)}>{one.reference}</a>
              )}
              {one.toldBy !== null && ` (${one.toldBy})`}
            </span>
          ))}
          <span className="sub">{countedWords(batch.length, arrivals)}</span>
        </>
      ),
    },
  ]
}

/** Put together with others at its centre, counted apart again, told from the others. */
export function GroupActs({ card }: { readonly card: CasualtyCard }) {
  const { batch, joinable } = card
  const beside = batch.filter(({ isBeside }) => isBeside).length
  return (
    <>
      {joinable.length > 0 && <Join card={card} isSeveral={beside > 1} />}
      {beside > 1 && (
        <Act
          id="part-group"
          action={parted}
          title={GROUP.part}
          submit={GROUP.submit}
          hidden={hiddenOf(card)}
          notes={[GROUP.partNote]}
          fields={[{ kind: 'number', name: 'count', label: GROUP.howMany, unit: CHANGE.animals }]}
        />
      )}
      {batch.length > 1 && (
        <Act
          id="tell-apart"
          action={toldApart}
          title={GROUP.tell}
          submit={GROUP.submit}
          hidden={hiddenOf(card)}
          fields={[{ kind: 'text', name: 'toldBy', label: GROUP.toldBy, hint: GROUP.toldByHint }]}
        />
      )}
    </>
  )
}

function Join({ card, isSeveral }: { readonly card: CasualtyCard; readonly isSeveral: boolean }) {
  const count: FieldSpec[] = isSeveral
    ? [
        {
          kind: 'number',
          name: 'count',
          label: GROUP.howMany,
          unit: CHANGE.animals,
          hint: GROUP.howManyHint,
        },
      ]
    : []
  return (
    <Act
      id="join-group"
      action={joined}
      title={GROUP.join}
      submit={GROUP.submit}
      hidden={hiddenOf(card)}
      notes={[GROUP.joinNote]}
      fields={[
        {
          kind: 'select',
          name: 'withId',
          label: GROUP.withWhom,
          none: CHANGE.choose,
          options: card.joinable.map(one => ({ value: String(one.withId), text: joinableWords(one) })),
        },
        ...count,
      ]}
    />
  )
}

/** The numbered places in which those beside it are, to say which of them. */
export function whichPlaces({ batch }: CasualtyCard): FieldSpec[] {
  const choices = batch.flatMap(({ isBeside, placeNo, reference }) =>
    isBeside && placeNo !== null ? [{ value: String(placeNo), label: placeOf(placeNo, reference) }] : [],
  )
  if (choices.length < 2) return []
  return [
    { kind: 'many', name: 'places[]', label: GROUP.places, hint: GROUP.placesHint, columns: 2, choices },
  ]
}

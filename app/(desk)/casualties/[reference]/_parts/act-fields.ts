import type { FieldSpec } from '#app/(desk)/casualties/_parts/field-spec.ts'
import { PRECISIONS } from '#lib/domain/precision.ts'
import type { CasualtyCard } from '#lib/service/casualty.ts'
import { CHANGE, placeChoiceWords, placeGroup, precisionWords } from '#lib/words/casualty-change.ts'

/** When it was: now, or an earlier time; and how well that is known. */
export function whenFields(name: 'since' | 'at', start?: string): FieldSpec[] {
  return [
    { kind: 'time', name, label: CHANGE.when, hint: CHANGE.whenHint, start },
    {
      kind: 'select',
      name: 'precision',
      label: CHANGE.precision,
      start: 'minute',
      options: PRECISIONS.map(value => ({ value, text: precisionWords(value) })),
    },
  ]
}

/** The enclosures of the centre asked for, free and fitting ones first; where it is now is left out. */
export function placeFields({ places, now, holds, zone }: CasualtyCard): FieldSpec[] {
  const choices = (places?.choices ?? []).filter(one => one.enclosureId !== now.enclosureId)
  const held = holds.find(hold => choices.some(one => one.enclosureId === hold.enclosureId))
  const best = held?.enclosureId ?? choices.find(one => one.state === 'free')?.enclosureId
  return [
    {
      kind: 'select',
      name: 'enclosureId',
      label: CHANGE.enclosure,
      none: CHANGE.inBuilding,
      start: best === undefined ? '' : String(best),
      options: choices.map(choice => ({
        value: String(choice.enclosureId),
        text: placeChoiceWords(choice, zone, () => CHANGE.itsKind),
        group: placeGroup(choice.state),
      })),
    },
    { kind: 'text', name: 'overrideReason', label: CHANGE.override, hint: CHANGE.overrideHint },
  ]
}

/** What every form of the card sends along unseen. */
export function hiddenOf({ head }: CasualtyCard): Record<string, string> {
  return { casualtyId: String(head.id), reference: head.reference }
}

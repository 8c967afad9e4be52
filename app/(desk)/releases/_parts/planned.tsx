import { Notice } from '#app/_ui/notice.tsx'
import { OneButton } from '#app/(desk)/calls/_parts/one-button.tsx'
import { Act } from '#app/(desk)/casualties/_parts/act.tsx'
import type { FieldSpec } from '#app/(desk)/casualties/_parts/field-spec.ts'
import type { ShownRelease } from '#lib/service/release.ts'
import { paths } from '#lib/web/paths.ts'
import { CHANGE } from '#lib/words/casualty-change.ts'
import { animalOf, barredWords, plannedHead, RELEASE, siteWords, wayWords } from '#lib/words/release.ts'
import { releaseCalledOff, releaseRecorded } from '../actions.ts'

type Props = { readonly release: ShownRelease; readonly zone: string; readonly canRecord: boolean }

/** One planned release, with the form that records who went. */
export function Planned({ release, zone, canRecord }: Props) {
  const { id, animals, place, way, releaser, at, barred } = release
  const hidden = Object.fromEntries([
    ['releaseId', String(id)],
    ...animals.map((one, index) => [`animals.${index}.casualtyId`, String(one.id)] as const),
  ])
  return (
    <div className="planned">
      <h3>{plannedHead({ at, site: siteWords(place), animals: animals.length, releaser }, zone)}</h3>
      <p>{wayWords(way)}</p>
      <p>
        {animals.map((one, index) => (
          <span key={one.id}>
            {index > 0 && ', '}
            <a href={paths.casualty(one.reference)}>{one.reference}</a>
          </span>
        ))}
      </p>
      {barred.length > 0 && (
        <Notice inside kind="check-this" sentence={RELEASE.barredSince} kept={barredWords(barred)} />
      )}
      {canRecord && (
        <div className="acts">
          <Act
            id={`release-${id}`}
            action={releaseRecorded}
            title={RELEASE.record}
            submit={CHANGE.record}
            hidden={hidden}
            fields={fieldsOf(release)}
          />
          <OneButton
            action={releaseCalledOff}
            text={RELEASE.callOff}
            weight="plain"
            fields={{ releaseId: String(id) }}
          />
        </div>
      )}
    </div>
  )
}

function fieldsOf({ animals, releaser }: ShownRelease): FieldSpec[] {
  return [
    ...animals.map(
      (one, index): FieldSpec => ({
        kind: 'two',
        name: `animals.${index}`,
        legend: animalOf(one.reference, one.speciesName),
        fields: [
          {
            kind: 'select',
            name: `animals.${index}.went`,
            label: RELEASE.went,
            start: 'yes',
            options: [
              { value: 'yes', text: RELEASE.yes },
              { value: 'no', text: RELEASE.no },
            ],
          },
          { kind: 'text', name: `animals.${index}.ring`, label: RELEASE.ring },
        ],
      }),
    ),
    { kind: 'text', name: 'releaser', label: RELEASE.releaser, start: releaser },
    { kind: 'time', name: 'at', label: RELEASE.at, hint: RELEASE.atHint },
  ]
}

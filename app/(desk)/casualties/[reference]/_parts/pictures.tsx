import { PictureList } from '#app/_parts/picture-list.tsx'
import { EmptyState } from '#app/_ui/notice.tsx'
import { Section } from '#app/_ui/section.tsx'
import { Act } from '#app/(desk)/casualties/_parts/act.tsx'
import { ATTACHMENT_KINDS } from '#lib/domain/attachment.ts'
import { readPictures } from '#lib/service/attachment.ts'
import type { CasualtyCard } from '#lib/service/casualty.ts'
import { load } from '#lib/web/load.ts'
import { paths } from '#lib/web/paths.ts'
import { PICTURES, pictureBackWords, pictureKindWords, pictureWords } from '#lib/words/attachment.ts'
import { CHANGE } from '#lib/words/casualty-change.ts'
import { pictureAdded, pictureTakenBack } from '../../actions.ts'
import { hiddenOf } from './act-fields.ts'

type Props = { readonly actor: Parameters<typeof readPictures>[0]; readonly card: CasualtyCard }

/** Radiographs and photographs; those taken back keep their line. */
export async function CardPictures({ actor, card }: Props) {
  const { all, mayAdd } = await load(readPictures(actor, card.head.id))
  const standing = all.filter(({ takenBack }) => takenBack === null)
  const back = all.flatMap(one => (one.takenBack === null ? [] : [{ ...one, takenBack: one.takenBack }]))
  return (
    <Section id="pictures" head={PICTURES.head} note={PICTURES.note}>
      {mayAdd && <Add card={card} />}
      {standing.length === 0 ? (
        <EmptyState sentence={PICTURES.none} coming={PICTURES.noneComing} />
      ) : (
        <PictureList
          pictures={standing}
          addressOf={paths.picture}
          zone={card.zone}
          below={({ id }) => mayAdd && <TakeBack card={card} id={id} />}
        />
      )}
      {back.map(one => (
        <p key={one.id} className="pictures-back">
          {pictureWords(one, card.zone)}.{' '}
          {pictureBackWords({ because: one.takenBack.because, ...one.takenBack.entered }, card.zone)}
        </p>
      ))}
    </Section>
  )
}

function Add({ card }: { readonly card: CasualtyCard }) {
  return (
    <Act
      id="picture"
      action={pictureAdded}
      title={PICTURES.add}
      submit={PICTURES.submit}
      hidden={hiddenOf(card)}
      fields={[
        { kind: 'picture', name: 'picture', label: PICTURES.file, hint: PICTURES.fileHint },
        {
          kind: 'one',
          name: 'kind',
          label: PICTURES.kind,
          columns: 'row',
          start: ATTACHMENT_KINDS[0],
          choices: ATTACHMENT_KINDS.map(value => ({ value, label: pictureKindWords(value) })),
        },
        { kind: 'text', name: 'words', label: PICTURES.shows, hint: PICTURES.showsHint },
        { kind: 'time', name: 'at', label: PICTURES.takenAt, hint: CHANGE.whenHint },
      ]}
    />
  )
}

function TakeBack({ card, id }: { readonly card: CasualtyCard; readonly id: number }) {
  return (
    <Act
      id={`picture-back-${id}`}
      action={pictureTakenBack}
      title={PICTURES.takeBack}
      submit={PICTURES.takeBack}
      hidden={{ ...hiddenOf(card), attachmentId: String(id) }}
      notes={[PICTURES.takeBackNote]}
      fields={[{ kind: 'text', name: 'because', label: PICTURES.because, hint: PICTURES.becauseHint }]}
    />
  )
}

import type { Route } from 'next'
import type { ReactNode } from 'react'
import type { ImageSize } from '#lib/domain/attachment.ts'
import type { Pictures } from '#lib/service/attachment.ts'
import { pictureWords } from '#lib/words/attachment.ts'
import './pictures.css'

type Picture = Pick<Pictures['all'][number], 'id' | 'kind' | 'at' | 'words' | 'width' | 'height'>

type Props<P extends Picture> = {
  readonly pictures: readonly P[]
  readonly addressOf: (id: number, size: ImageSize) => Route
  readonly zone: string
  /** What stands below one. */
  readonly below?: (picture: P) => ReactNode
}

/** Pictures small, each with its words; each opens as it is. */
export function PictureList<P extends Picture>({ pictures, addressOf, zone, below }: Props<P>) {
  return (
    <ul className="pictures">
      {pictures.map(picture => (
        <li key={picture.id}>
          <a href={addressOf(picture.id, 'whole')}>
            {/* biome-ignore lint/performance/noImgElement: made to size when it was added, served with its rights asked */}
            <img
              src={addressOf(picture.id, 'thumbnail')}
              width={picture.width}
              height={picture.height}
              loading="lazy"
              alt=""
            />
            <span>{pictureWords(picture, zone)}</span>
          </a>
          {below?.(picture)}
        </li>
      ))}
    </ul>
  )
}
